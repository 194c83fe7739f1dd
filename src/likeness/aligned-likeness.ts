import {
  type AlignmentLimits,
  type Grids,
  type HeldGrid,
  type Similarity,
  withGrids,
} from '../kernels/grids/grids.ts'
import { limitsOf, PATIENT } from './align-grids.ts'
import { facesMayMatch, onFace } from './face-trial.ts'
import { FINER, type LazyLikeness, type Likeness, likeness } from './grid-likeness.ts'
import { IDENTITY } from './luma-grid.ts'
import type { ReadySignature, Way } from './ready-signature.ts'

/*
 * How alike two pictures are when one is aligned with the other as well as it can be. This is the exact measure, and slow: see
 * quick-likeness.ts for what spares it.
 */

export interface PairLikeness extends Likeness {
  readonly isMirrored: boolean
}

/**
 * How far faces aligned by the irises may still have to move, cells.
 * @tuned on turned and small faces: up to 7 cells, a third of the eye distance
 */
const BY_IRISES = limitsOf({ shift: 8, stretch: 0.3 })
/** The same for heads, whose cells are four times as large. @tuned on turned and small faces */
const BY_HEAD = limitsOf({ shift: 2, stretch: 0.3 })
/**
 * How far frames may have to move, cells: a crop by 10 % may be taken from any corner.
 * @choice 5 % of 32 cells are 1.6; three times that
 */
const FRAME_REACH = { shift: 5, stretch: 0.2 }
/**
 * Sizes from which frames are aligned: the same, and one of them cropped by 10 %.
 * @choice the largest crop that is looked for
 */
const SIZES = [1, 0.9, 1 / 0.9]
/**
 * When frames settle too unlike to be one.
 * @tuned on 76 photographs and 200 drawn sitters with their copies, 6,977 pairs that are told by their frames: 0.953 or more in the end, and
 *   no step below 0.18 cells before
 */
const FRAME_SETTLED = { step: 0.15, least: 0.945 }
const BY_FRAME = limitsOf(FRAME_REACH, { ...PATIENT, settled: FRAME_SETTLED })
/** Local likeness above which nothing better will come of the mirror. @tuned on copies, of which 19 of 20 are over 0.93 */
const PLAINLY = 0.9

/**
 * How alike the faces are, aligned by the irises; null when one has none, they can't be aligned so, or neither way round they correlate by
 * `least`.
 */
export function faceLikeness(a: ReadySignature, b: ReadySignature, least: number): PairLikeness | null {
  return withGrids((grids) => bestWay(least, (way) => faceLikenessBy(grids, a, b, way, true)))
}

/** The same for one face as it is and for the other as it is and in a mirror, whatever they correlate by. */
export function faceLikenessEachWay(a: ReadySignature, b: ReadySignature): Record<Way, Likeness | null> {
  const by = (way: Way) =>
    withGrids((grids) => {
      const found = faceLikenessBy(grids, a, b, way, false)
      return found && { whole: found.whole, local: found.local() }
    })
  return { plain: by('plain'), mirror: by('mirror') }
}

/** @param tried whether one pair of many is compared: faces that can't be one are given up before they are aligned, and less closely */
function faceLikenessBy(
  grids: Grids,
  a: ReadySignature,
  b: ReadySignature,
  way: Way,
  tried: boolean,
): LazyLikeness | null {
  if (!a.face || !b.face || !a.head || !b.head) return null
  const head = grids.align(grids.hold(a.head.plain), grids.hold(b.head[way]), IDENTITY, BY_HEAD)
  const [one, other] = [a.coarseFace, b.coarseFace]
  if (tried && one && other && !facesMayMatch(grids, one.plain, other[way], head ?? IDENTITY)) return null
  const starts = head ? [IDENTITY, onFace(head)] : [IDENTITY]
  const faces = [grids.hold(a.face.plain), grids.hold(b.face[way])] as const
  return alignedLikeness(grids, ...faces, BY_IRISES, starts, tried ? [] : FINER)
}

/** How alike the frames are as a whole, one of them perhaps cropped a little; null when they don't correlate by `least` either way round. */
export function frameLikeness(a: ReadySignature, b: ReadySignature, least: number): PairLikeness | null {
  const starts = SIZES.map((size): Similarity => ({ ...IDENTITY, a: size }))
  return withGrids((grids) => {
    const first = grids.hold(a.frame.plain)
    return bestWay(least, (way) => alignedLikeness(grids, first, grids.hold(b.frame[way]), BY_FRAME, starts))
  })
}

/** The more alike of plain and mirrored; the mirror is not looked into when there is no need. Null when neither correlates by `least`. */
function bestWay(least: number, likenessOf: (way: Way) => LazyLikeness | null): PairLikeness | null {
  const plain = likenessOf('plain')
  const isPlainly = () => plain !== null && plain.local() > PLAINLY
  const isPlain = plain !== null && plain.whole >= least
  if (isPlain && isPlainly()) return found(plain, false)
  const mirror = likenessOf('mirror')
  if (!isPlain && !(mirror && mirror.whole >= least)) return null
  const isFlipped = mirror && !isPlainly() && !(plain && plain.local() >= mirror.local())
  return isFlipped ? found(mirror, true) : plain && found(plain, false)
}

function found({ whole, local }: LazyLikeness, isMirrored: boolean): PairLikeness {
  return { whole, local: local(), isMirrored }
}

/** Of the second grid aligned with the first, from the start that leads to the highest correlation; null when none leads anywhere. */
function alignedLikeness(
  grids: Grids,
  first: HeldGrid,
  second: HeldGrid,
  limits: AlignmentLimits,
  starts: readonly Similarity[],
  finer: readonly number[] = [],
): LazyLikeness | null {
  let best: HeldGrid | null = null
  let most = -1
  for (const start of starts) {
    const move = grids.align(first, second, start, limits)
    if (!move) continue
    const aligned = grids.moved(second, move, first)
    const whole = grids.correlation(first, aligned)
    if (whole > most) {
      most = whole
      best = aligned
    }
  }
  return best && likeness(grids, first, best, finer)
}
