import { CANVASES, type Turned } from './canvas.ts'
import { type Evidence, NO_EVIDENCE, shareOf, together } from './evidence.ts'
import type { FillLine } from './fill-line.ts'
import type { SideStrip } from './side-strip.ts'

/** How closely it is looked: at every so many positions, so far to either side of the line, px. */
export interface Care {
  readonly stride: number
  readonly reach: number
}

/** What one side tells when the picture begins at each of some lines. */
export type Reading = (strip: SideStrip, lines: readonly FillLine[], care: Care) => Evidence[]

/** How all turns are looked at. @choice as little as leaves the right one among the candidates; no source */
const COARSE: Care = { stride: 8, reach: 12 }
/** How the candidates are. @choice clothes and shoulders go on over tens of px, chance doesn't; no source */
const FINE: Care = { stride: 4, reach: 48 }
/** Tangents of the angles that are looked for, and their steps. @choice from 0.23 to 6.1 degrees, by a pixel at the ends of a side */
const SLOPES = { least: 2, most: 53, step: 0.002 }
/** Tangents that are tried around a candidate. @choice half of the steps in fours */
const CLOSER = [-0.001, -0.0005, 0, 0.0005, 0.001]
/** Turns that are looked at closely. @choice the right one is the best of all in most pictures; no source */
const CANDIDATES = 5
/** Share of what is asked that the first look must show. @tuned on 180 smeared and mirrored files: the right turn of all that a close look finds shows more */
const AT_FIRST = 0.35

interface Scored extends Turned {
  readonly share: number
}

/** The turn for which most of what all four sides could tell speaks; null when less does than asked. */
export function findTurn(
  strips: readonly SideStrip[],
  linesOf: (turned: Turned) => readonly FillLine[],
  reading: Reading,
  leastShare: number,
): Turned | null {
  const scored = (turns: readonly Turned[], care: Care): Scored[] => {
    const lines = turns.map(linesOf)
    const sides = strips.map((strip, i) => {
      const along = lines.map((each) => each[i] as FillLine)
      return reading(strip, along, care)
    })
    return turns.flatMap((turned, k) => {
      const evidence = sides.map((side) => side[k] as Evidence).reduce(together, NO_EVIDENCE)
      return evidence.weight === 0 ? [] : [{ ...turned, share: shareOf(evidence) }]
    })
  }
  const candidates = scored(ALL, COARSE)
    .filter(({ share }) => share >= AT_FIRST * leastShare)
    .toSorted((p, q) => q.share - p.share)
    .slice(0, CANDIDATES)
  const closer = candidates.flatMap(({ slope, canvas }) =>
    CLOSER.map((by) => ({ slope: slope + by, canvas })),
  )
  const [best] = scored(closer, FINE).toSorted((p, q) => q.share - p.share)
  return best && best.share >= leastShare ? best : null
}

const ALL: readonly Turned[] = CANVASES.flatMap((canvas) =>
  Array.from({ length: 2 * SLOPES.most + 1 }, (_, i) => ({ slope: (i - SLOPES.most) * SLOPES.step, canvas })),
).filter(({ slope }) => Math.abs(slope) >= SLOPES.least * SLOPES.step)
