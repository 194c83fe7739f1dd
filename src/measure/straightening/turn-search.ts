import type { LumaStrip } from '../../kernels/strips/sides.ts'
import { type BinnedLine, type TurnEvidence, turnEvidence } from '../../kernels/strips/turns.ts'
import { pictureLine, type Turned } from './canvas.ts'
import { cautiousShareOf, isTold, type OwnPixels, READING, shareOf } from './evidence.ts'
import { type FillLine, rangeOf } from './fill-line.ts'
import type { Search } from './searches.ts'

/**
 * How many turns are looked at again for either fill, how many of these closely, and how many of what lies around them last.
 * @tuned on 420 smeared and mirrored files: twice as many find no more
 */
const KEPT = { again: 12, closely: 6, last: 2 } as const

/** Least share of what could speak for a fill that must, in the first look for another one, in that for a closer one, and in that for the last. */
export type Gates = Readonly<
  Record<OwnPixels, { readonly first: number; readonly again: number; readonly fine: number }>
>

/** The lines of a turn, one for each side, and the share of what all four sides could tell that speaks for it. */
export interface Found {
  readonly lines: readonly FillLine[]
  readonly share: number
}

/** Where the picture begins on each side when it was turned so. */
export function linesOf(strips: readonly Pick<LumaStrip, 'length'>[], turned: Turned): FillLine[] {
  const lines: FillLine[] = []
  for (let i = 0; i < strips.length; i++) lines.push(lineOf(strips, i, turned))
  return lines
}

function lineOf(strips: readonly Pick<LumaStrip, 'length'>[], i: number, turned: Turned): FillLine {
  const [strip, next] = [strips[i] as LumaStrip, strips[(i + 1) % strips.length] as LumaStrip]
  return pictureLine(strip, next.length, turned)
}

/**
 * The turns for which most speaks that pixels of the picture itself fill what it left: one for mirrored ones, and one for repeated ones. All four sides
 * are turned by one angle about one middle, so that what they tell adds up.
 * @param strips in which candidates are looked at
 * @param smaller in which all turns are looked at: the same strips, or those of a smaller copy
 * @param seeds turns that are looked at closely for repeated ones whatever the first look showed
 */
export function findTurns(
  strips: readonly LumaStrip[],
  smaller: readonly LumaStrip[],
  search: Search,
  gates: Gates,
  seeds: readonly Turned[],
): Readonly<Record<OwnPixels, Found | null>> {
  const first = read(smaller, search.turns, search.coarse)
  const better = (fill: OwnPixels) => {
    const found = best(first, fill, KEPT.again, gates[fill].first)
    return best(read(smaller, found, search.again), fill, KEPT.closely, gates[fill].again)
  }
  let mirrored: Found | null = null
  for (const turned of closer(strips, search, better('mirrored'), 'mirrored', gates))
    mirrored = greater(mirrored, inPhase(strips, turned, search))
  let repeated: Found | null = null
  for (const { turned, sides } of read(
    strips,
    closer(strips, search, [...better('repeated'), ...seeds], 'repeated', gates),
    search.last,
  ))
    repeated = greater(repeated, {
      lines: linesOf(strips, turned),
      share: cautiousShareOf(sides, 'repeated'),
    })
  return { mirrored, repeated }
}

/** The first of those for which most speaks. */
function greater(one: Found | null, other: Found): Found {
  return one && one.share >= other.share ? one : other
}

/** The turns around some for which most speaks that a fill lies outside of them. */
function closer(
  strips: readonly LumaStrip[],
  search: Search,
  turns: readonly Turned[],
  fill: OwnPixels,
  gates: Gates,
): Turned[] {
  const around: Turned[] = []
  for (const { slope, canvas } of turns)
    for (const by of search.closer) around.push({ slope: slope + by, canvas })
  return best(read(strips, around, search.fine), fill, KEPT.last, gates[fill].fine)
}

interface Told {
  readonly turned: Turned
  readonly sides: readonly TurnEvidence[]
}

/** What all sides tell of each of some turns. */
function read(strips: readonly LumaStrip[], turns: readonly Turned[], look: Search['coarse']): Told[] {
  if (turns.length === 0) return []
  const reading = { ...look, ...READING }
  const sides: TurnEvidence[][] = []
  for (let i = 0; i < strips.length; i++) {
    const strip = strips[i] as LumaStrip
    const lines: BinnedLine[] = []
    for (const turned of turns) lines.push(inBins(lineOf(strips, i, turned), strip.length, look.size))
    sides.push(turnEvidence(strip, lines, reading))
  }
  const told: Told[] = []
  for (let k = 0; k < turns.length; k++) {
    const ofTurn: TurnEvidence[] = []
    for (const side of sides) ofTurn.push(side[k] as TurnEvidence)
    told.push({ turned: turns[k] as Turned, sides: ofTurn })
  }
  return told
}

interface Candidate {
  readonly turned: Turned
  readonly share: number
}

/** The turns for which most speaks, that first; none when for none of them enough does. */
function best(all: readonly Told[], fill: OwnPixels, count: number, least: number): Turned[] {
  const found: Candidate[] = []
  for (const { turned, sides } of all)
    if (isTold(sides, fill)) found.push({ turned, share: shareOf(sides, fill) })
  found.sort(byShare)
  const turns: Turned[] = []
  if ((found[0]?.share ?? -1) >= least)
    for (let k = 0; k < Math.min(count, found.length); k++) turns.push((found[k] as Candidate).turned)
  return turns
}

function byShare(p: Candidate, q: Candidate): number {
  return q.share - p.share
}

/** A line, and the bins of positions between which it lies within the frame. */
function inBins(line: FillLine, length: number, size: number): BinnedLine {
  const { from, to } = rangeOf(line, length)
  const first = Math.ceil(from)
  const bins = Math.max(0, Math.floor((to - first) / size))
  return { start: line.start, slope: line.slope, first, bins }
}

/** The turn with the border of the picture on each side where most speaks for mirrored pixels: half a px beside it, fine grain doesn't mirror. */
function inPhase(strips: readonly LumaStrip[], turned: Turned, { last, phases }: Search): Found {
  const at: FillLine[] = []
  const told: TurnEvidence[] = []
  for (let i = 0; i < strips.length; i++) {
    const strip = strips[i] as LumaStrip
    const { start, slope } = lineOf(strips, i, turned)
    const lines: BinnedLine[] = []
    for (const phase of phases) lines.push(inBins({ start: start + phase, slope }, strip.length, last.size))
    const sides = turnEvidence(strip, lines, { ...last, ...READING })
    let most = 0
    for (let k = 1; k < sides.length; k++)
      if ((sides[k] as TurnEvidence).mirrored > (sides[most] as TurnEvidence).mirrored) most = k
    at.push({ start: (lines[most] as BinnedLine).start, slope })
    told.push(sides[most] as TurnEvidence)
  }
  return { lines: at, share: cautiousShareOf(told, 'mirrored') }
}
