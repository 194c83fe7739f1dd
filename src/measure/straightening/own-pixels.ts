import { halved, type LumaStrip } from '../../kernels/sides.ts'
import type { FillLine } from './fill-line.ts'
import { copySearch, thinSearch } from './searches.ts'
import { type Found, findTurns, type Gates } from './turn-search.ts'

/**
 * Least share of what could tell that must speak for a fill, half of the side that tells most left out, at full size and in a copy.
 * @tuned on 420 smeared and mirrored files and 2,106 pictures, tight crops and small copies as they are: of 512 px and more these have 0.05 and 0.05
 *   (mirrored), 0.26 and 0.14 (repeated) at most
 */
const LEAST_SHARE = { mirrored: { thin: 0.07, copy: 0.07 }, repeated: { thin: 0.29, copy: 0.17 } } as const
/** The same at full size where the sides beside speak for it, too: how much, and what suffices then. @tuned on the same files: 0.20 at most */
const SPOKEN = { beside: 0.05, repeated: 0.21 } as const
/** Longest side up to which a picture is small, px, and by how much more must speak in its copy then. @tuned on the same files: 0.09 (mirrored) and 0.23 at most */
const SMALL = { px: 512, times: 1.6 } as const

/** Shares that lead to a closer look. @tuned on the same files: of those that are found two in a hundred show less, of the others most do */
const GATES: Readonly<Record<'thin' | 'copy', Gates>> = {
  thin: {
    mirrored: { first: 0.07, again: 0.09, fine: 0.2 },
    repeated: { first: 0.08, again: 0.18, fine: 0.21 },
  },
  copy: {
    mirrored: { first: 0.08, again: 0.09, fine: 0.09 },
    repeated: { first: 0.1, again: 0.13, fine: 0.2 },
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
  const isSmall = full < SMALL.px
  const small = longestOf(copy) >= HALVED_PX ? copy.map(halved) : copy
  const atFull = findTurns(thin, thin, thinSearch(full), GATES.thin)
  const inCopy = findTurns(copy, small, copySearch(longestOf(copy), longestOf(small), full), GATES.copy)
  for (const [kind, fill] of [
    ['mirrored', 'mirrored'],
    ['repeated', 'smeared'],
  ] as const) {
    const least = LEAST_SHARE[kind]
    const isSpoken = kind === 'repeated' && !isSmall && (atFull[kind]?.beside ?? 0) >= SPOKEN.beside
    const fine = asked(atFull[kind], isSpoken ? SPOKEN.repeated : least.thin)
    const coarse = asked(inCopy[kind], isSmall ? SMALL.times * least.copy : least.copy)
    if (fine && fine.share >= (coarse?.share ?? 0))
      return { fill, lines: fine.lines.map(({ start, slope }) => ({ start: scale * start, slope })) }
    if (coarse) return { fill, lines: coarse.lines }
  }
  return null
}

function asked(found: Found | null, least: number): Found | null {
  return found && found.share >= least ? found : null
}

function longestOf(strips: readonly LumaStrip[]): number {
  return Math.max(...strips.map(({ length }) => length))
}
