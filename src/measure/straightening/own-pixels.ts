import { halved, type LumaStrip } from '../../kernels/sides.ts'
import type { FillLine } from './fill-line.ts'
import { copySearch, thinSearch } from './searches.ts'
import { type RowDifferences, rowDifferences, stillOutside } from './still-rows.ts'
import { type Found, findTurns, type Gates } from './turn-search.ts'

/**
 * Least share of what could tell that must speak for a fill, half of the side that tells most left out, at full size and in a copy.
 * @tuned on 1,440 smeared and mirrored files and 3,740 pictures, tight crops, small copies and files saved anew as they are: of 512 px and more these have
 *   0.06 and 0.06 (mirrored), 0.30 and 0.17 (repeated) at most
 */
const LEAST_SHARE = { mirrored: { thin: 0.09, copy: 0.09 }, repeated: { thin: 0.35, copy: 0.21 } } as const
/** Longest side up to which a picture is small, px, and by how much more must speak in its copy then. @tuned on the same files: 0.09 (mirrored) and 0.22 at most */
const SMALL = { px: 512, times: 1.3 } as const
/**
 * What suffices for repeated pixels where the rows outside of the line hardly differ: share, and by how many standard errors.
 * @tuned on the same files, of which those as they are have 5.8 at most where the share is as large
 */
const STILL = { share: 0.1, errors: 6 } as const

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
  const atFull = findTurns(thin, thin, thinSearch(full), GATES.thin)
  const inCopy = findTurns(copy, small, copySearch(longestOf(copy), longestOf(small), full), GATES.copy)
  let rows: readonly RowDifferences[] | null = null
  const isStill = (lines: readonly FillLine[]) => {
    rows ??= thin.map(rowDifferences)
    return stillOutside(rows, scaled(lines, 1 / scale)) >= STILL.errors
  }
  for (const [kind, fill] of [
    ['mirrored', 'mirrored'],
    ['repeated', 'smeared'],
  ] as const) {
    const isTold = ({ share, lines }: Found, least: number) =>
      share >= least || (kind === 'repeated' && share >= STILL.share && isStill(lines))
    const { thin: leastThin, copy: leastCopy } = LEAST_SHARE[kind]
    const told: Found[] = []
    const [fine, coarse] = [atFull[kind], inCopy[kind]]
    const fineInCopy = fine && { ...fine, lines: scaled(fine.lines, scale) }
    if (fineInCopy && isTold(fineInCopy, leastThin)) told.push(fineInCopy)
    if (coarse && isTold(coarse, times * leastCopy)) told.push(coarse)
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
