import { halved, type LumaStrip } from '../../kernels/strips/sides.ts'
import type { FillLine } from './fill-line.ts'
import { copySearch, thinSearch } from './searches.ts'
import { readRows, stillestTurns, stillOutside } from './still-rows.ts'
import { type Found, findTurns, type Gates } from './turn-search.ts'

/**
 * Least share of what could tell that must speak for a fill, half of the side that tells most left out, at full size and in a copy.
 * @tuned on 1,440 smeared and mirrored files and 3,740 pictures, tight crops, small copies and files saved anew as they are: of 512 px and more these have
 *   0.06 and 0.03 (mirrored), 0.30 and 0.17 (repeated) at most
 */
const LEAST_SHARE = { mirrored: { thin: 0.09, copy: 0.09 }, repeated: { thin: 0.33, copy: 0.19 } } as const
/** Longest side up to which a picture is small, px, and by how much more must speak in its copy then. @tuned on the same files: 0.09 (mirrored) and 0.20 at most */
const SMALL = { px: 512, times: 1.3 } as const
/**
 * Less suffices for repeated pixels where the rows outside of the line hardly differ: the least share, how many standard errors all of it is worth, and how
 * many both must be together.
 * @tuned on the same files, of which those as they are come to 6.8 at most; see docs/validation.md for limits chosen on half of the people
 */
const STILL = { least: 0.1, share: 10, together: 7.3 } as const

/** Shares that lead to a closer look. @tuned on the same files: of those that are found in no other way three in a hundred show less, of the others most do */
const GATES: Readonly<Record<'thin' | 'copy', Gates>> = {
  thin: {
    mirrored: { first: 0.07, again: 0.08, fine: 0.12 },
    repeated: { first: 0.08, again: 0.08, fine: 0.15 },
  },
  copy: {
    mirrored: { first: 0.1, again: 0.09, fine: 0.12 },
    repeated: { first: 0.07, again: 0.1, fine: 0.12 },
  },
}

/** Length of a copy from which on all turns are looked at in one of half its size, px. @choice 384 px keep detail enough; no source */
const HALVED_PX = 768

/** A fill of pixels of the picture itself. */
export interface OwnFill {
  readonly fill: 'mirrored' | 'smeared'
  /** Where the picture begins, in px of the copy. */
  readonly lines: readonly FillLine[]
}

/**
 * Wedges that were filled with pixels of the picture itself: thin ones at full size, others in a copy. Mirrored ones can look repeated, the outermost
 * pixels of a wedge being alike; repeated ones never look mirrored.
 * @param scale px of the copy for each of the picture
 */
export function findOwnPixels(
  copy: readonly LumaStrip[],
  thin: readonly LumaStrip[],
  scale: number,
): OwnFill | null {
  const full = longestOf(thin)
  const times = full < SMALL.px ? SMALL.times : 1
  const small = longestOf(copy) >= HALVED_PX ? copy.map(halved) : copy
  const [thinTurns, deeper] = [thinSearch(full), copySearch(longestOf(copy), longestOf(small), full)]
  const rows = thin.map(readRows)
  const seeds = stillestTurns(rows, thin, [...thinTurns.turns, ...deeper.turns])
  const atFull = findTurns(thin, thin, thinTurns, GATES.thin, seeds)
  const inCopy = findTurns(copy, small, deeper, GATES.copy, seeds)
  const isStill = ({ share, lines }: Found) => {
    if (share < STILL.least) return false
    const [errors = 0] = stillOutside(rows, [scaled(lines, 1 / scale)])
    return STILL.share * share + errors >= STILL.together
  }
  for (const [kind, fill] of [
    ['mirrored', 'mirrored'],
    ['repeated', 'smeared'],
  ] as const) {
    const isTold = (found: Found, least: number) =>
      found.share >= least || (kind === 'repeated' && isStill(found))
    const least = LEAST_SHARE[kind]
    const fine = atFull[kind] && { ...atFull[kind], lines: scaled(atFull[kind].lines, scale) }
    const coarse = inCopy[kind]
    const told: Found[] = []
    if (fine && isTold(fine, least.thin)) told.push(fine)
    if (coarse && isTold(coarse, times * least.copy)) told.push(coarse)
    const [best] = told.toSorted((p, q) => q.share - p.share)
    if (best) return { fill, lines: best.lines }
  }
  return null
}

function scaled(lines: readonly FillLine[], by: number): FillLine[] {
  return lines.map(({ start, slope }) => ({ start: by * start, slope }))
}

function longestOf(strips: readonly LumaStrip[]): number {
  return Math.max(...strips.map(({ length }) => length))
}
