import { type TurnEvidence, turnEvidence } from '../../kernels/turns.ts'
import { pictureLine, type Turned } from './canvas.ts'
import { isTold, type OwnPixels, READING, type Shares, shareOf, sharesOf } from './evidence.ts'
import { type FillLine, rangeOf } from './fill-line.ts'
import type { Search } from './searches.ts'
import type { LumaStrip } from './side-strip.ts'

/**
 * How many turns are looked at again for either fill, how many of these closely, and how many of what lies around them last.
 * @tuned on 420 smeared and mirrored files: twice as many find no more
 */
const KEPT = { again: 12, closely: 6, last: 2 } as const

/** Least share of what could speak for a fill that must, in the first look for another one, in that for a closer one, and in that for the last. */
export type Gates = Readonly<
  Record<OwnPixels, { readonly first: number; readonly again: number; readonly fine: number }>
>

/** The lines of a turn, one for each side, and the shares of what all four sides could tell that speak for it. */
export interface Found extends Shares {
  readonly lines: readonly FillLine[]
}

/** Where the picture begins on each side when it was turned so. */
export function linesOf(strips: readonly Pick<LumaStrip, 'length'>[], turned: Turned): FillLine[] {
  const [top, right] = strips as [LumaStrip, LumaStrip]
  return strips.map((strip, i) => pictureLine(strip, i % 2 === 0 ? right.length : top.length, turned))
}

/**
 * The turns for which most speaks that pixels of the picture itself fill what it left: one for mirrored ones, and one for repeated ones. All four sides
 * are turned by one angle about one middle, so that what they tell adds up.
 * @param strips in which candidates are looked at
 * @param smaller in which all turns are looked at: the same strips, or those of a smaller copy
 */
export function findTurns(
  strips: readonly LumaStrip[],
  smaller: readonly LumaStrip[],
  search: Search,
  gates: Gates,
): Readonly<Record<OwnPixels, Found | null>> {
  const first = read(smaller, search.turns, search.coarse)
  const around = (fill: OwnPixels) => {
    const better = best(first, fill, KEPT.again, gates[fill].first).map(({ turned }) => turned)
    const again = read(smaller, better, search.again)
    return best(again, fill, KEPT.closely, gates[fill].again).flatMap(({ turned: { slope, canvas } }) =>
      search.closer.map((by) => ({ slope: slope + by, canvas })),
    )
  }
  const closer = (fill: OwnPixels) =>
    best(read(strips, around(fill), search.fine), fill, KEPT.last, gates[fill].fine).map(
      ({ turned }) => turned,
    )
  const mirrored = closer('mirrored').map((turned) => inPhase(strips, turned, search))
  const repeated = read(strips, closer('repeated'), search.last).map(({ turned, sides }) => ({
    lines: linesOf(strips, turned),
    ...sharesOf(sides, 'repeated'),
  }))
  return { mirrored: mostOf(mirrored), repeated: mostOf(repeated) }
}

function mostOf(found: readonly Found[]): Found | null {
  return found.toSorted((p, q) => q.share - p.share)[0] ?? null
}

interface Told {
  readonly turned: Turned
  readonly sides: readonly TurnEvidence[]
}

/** What all sides tell of each of some turns. */
function read(strips: readonly LumaStrip[], turns: readonly Turned[], look: Search['coarse']): Told[] {
  const lines = turns.map((turned) => linesOf(strips, turned))
  const sides = strips.map((strip, i) =>
    turnEvidence(
      strip,
      lines.map((each) => inBins(each[i] as FillLine, strip.length, look.size)),
      { ...look, ...READING },
    ),
  )
  return turns.map((turned, k) => ({ turned, sides: sides.map((side) => side[k] as TurnEvidence) }))
}

/** The turns for which most speaks; none when for none of them enough does. */
function best(all: readonly Told[], fill: OwnPixels, count: number, least = -1) {
  const found = all
    .filter(({ sides }) => isTold(sides, fill))
    .map(({ turned, sides }) => ({ turned, share: shareOf(sides, fill) }))
    .toSorted((p, q) => q.share - p.share)
  return (found[0]?.share ?? -1) < least ? [] : found.slice(0, count)
}

/** A line, and the bins of positions between which it lies within the frame. */
function inBins(line: FillLine, length: number, size: number) {
  const { from, to } = rangeOf(line, length)
  const first = Math.ceil(from)
  const bins = Math.max(0, Math.floor((to - first) / size))
  return { start: line.start, slope: line.slope, first, bins }
}

/** The turn with the border of the picture on each side where most speaks for mirrored pixels: half a px beside it, fine grain doesn't mirror. */
function inPhase(strips: readonly LumaStrip[], turned: Turned, { last, phases }: Search): Found {
  const at = linesOf(strips, turned)
  const sides = strips.map((strip, i) => {
    const { start, slope } = at[i] as FillLine
    const lines = phases.map((phase) => ({ start: start + phase, slope }))
    const looked = lines.map((line) => inBins(line, strip.length, last.size))
    const told = turnEvidence(strip, looked, { ...last, ...READING })
    const [k, side] = [...told.entries()].reduce((one, other) =>
      other[1].mirrored > one[1].mirrored ? other : one,
    )
    return { line: lines[k] as FillLine, side }
  })
  const shares = sharesOf(
    sides.map(({ side }) => side),
    'mirrored',
  )
  return { lines: sides.map(({ line }) => line), ...shares }
}
