import type { Turned } from './canvas.ts'
import { type Evidence, NO_EVIDENCE, shareOf, together } from './evidence.ts'
import type { FillLine } from './fill-line.ts'
import type { SideStrip } from './side-strip.ts'

/** How closely it is looked: at every so many of the positions that are read together, so far to either side of the line, px. */
export interface Care {
  readonly size: number
  readonly stride: number
  readonly reach: number
}

/** Turns that are looked for. */
export interface Search {
  /** Whether they are those of wedges that are thin, at full size, or of all others in a copy. */
  readonly isThin: boolean
  readonly turns: readonly Turned[]
  /** Tangents that are tried around a candidate. */
  readonly closer: readonly number[]
  /** How all turns are looked at, and how the candidates are. */
  readonly coarse: Care
  readonly fine: Care
}

/** What one side tells when the picture begins at each of some lines. */
export type Reading = (strip: SideStrip, lines: readonly FillLine[], care: Care) => Evidence[]

/** Turns that are looked at closely. @tuned on 340 smeared and mirrored files: with five, eight of those that a close look finds are missed */
const CANDIDATES = 12
/** Share of what is asked that the first look must show. @tuned on the same files: the right turn of all that a close look finds shows more */
const AT_FIRST = 0.1

/** A turn, and the share of what all four sides could tell that speaks for it. */
export interface Found extends Turned {
  readonly share: number
}

/** What is asked of a turn. */
export interface Asked {
  /** Least share of what could tell that must speak for it. */
  readonly share: number
  /** Whether the sides beside the one that tells most must not speak against it. */
  readonly isShared?: boolean
}

/** The turn for which most of what all four sides could tell speaks; null when none is as asked. */
export function findTurn(
  strips: readonly SideStrip[],
  linesOf: (turned: Turned) => readonly FillLine[],
  reading: Reading,
  asked: Asked,
  { turns, closer, coarse, fine }: Search,
): Found | null {
  const scored = (tried: readonly Turned[], care: Care): Found[] => {
    const lines = tried.map(linesOf)
    const sides = strips.map((strip, i) => {
      const along = lines.map((each) => each[i] as FillLine)
      return reading(strip, along, care)
    })
    return tried.flatMap((turned, k) => {
      const told = sides.map((side) => side[k] as Evidence)
      const all = told.reduce(together, NO_EVIDENCE)
      const most = Math.max(...told.map(({ found }) => found))
      return all.weight === 0 || (asked.isShared && all.found < most)
        ? []
        : [{ ...turned, share: shareOf(all) }]
    })
  }
  const candidates = scored(turns, coarse)
    .filter(({ share }) => share >= AT_FIRST * asked.share)
    .toSorted((p, q) => q.share - p.share)
    .slice(0, CANDIDATES)
  const around = candidates.flatMap(({ slope, canvas }) =>
    closer.map((by) => ({ slope: slope + by, canvas })),
  )
  const [best] = scored(around, fine).toSorted((p, q) => q.share - p.share)
  return best && best.share >= asked.share ? best : null
}
