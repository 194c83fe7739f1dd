import { type ByteGrid, type Grids, type HeldGrid, withGrids } from '../kernels/grids/grids.ts'
import { correlationsWith, type HeldAgainst, innerProductsWith } from '../kernels/grids/one-to-many.ts'
import { SURE } from '../measure/schema/confidence.ts'
import type { Face } from '../measure/schema/measurements.ts'
import { limitsOf } from './align-grids.ts'
import { type CoarseGrid, coarseGrid } from './coarse-grid.ts'
import { detailOf } from './detail-grid.ts'
import { facesMayMatch } from './face-trial.ts'
import { type FrameSketch, frameSketch } from './frame-sketch.ts'
import { IDENTITY } from './luma-grid.ts'
import { eitherWay, facesMayAgree, tonesAgree } from './quick-likeness.ts'
import type { BothWays, ReadySignature, Way } from './ready-signature.ts'

/*
 * The pairs of a delivery that are compared closely. The limits were found on 25 photographs with 26 seeded copies each and 200 drawn sitters
 * with nine each: cropped to 85 %, mirrored, turned, graded, grayed, blurred, made as small as 130 px, saved at quality 25. Of the 17,077 pairs
 * among them that samePicture finds, 9,642 of faces that look ahead, none was lost; nor of the 5,312 of 51 other photographs with 14 copies each.
 */

/** A signature with what is looked at before it is compared closely. */
export interface Selectable {
  readonly signature: ReadySignature
  /** Null where it bounds nothing. */
  readonly frame: FrameSketch | null
  /** Null where the irises are not well known, so that the head may be cut out wrongly. */
  readonly head: SelectableHead | null
}

interface SelectableHead {
  readonly grids: BothWays
  readonly coarse: CoarseGrid
}

/**
 * Largest turn and nod of a face whose irises are well known, degrees.
 * @tuned on 25 photographs and 200 drawn sitters with their copies, 12,400 pairs: beyond it, in gray, they are up to 0.6
 *   eye distances off
 */
const AHEAD_DEG = 20
/**
 * Least correlation of coarse heads, aligned by the irises alone.
 * @tuned on 25 photographs and 200 drawn sitters with their copies, 7,840 pairs: 0.70 or more
 */
const UNALIGNED_LEAST = 0.6
/**
 * Least correlation of their details.
 * @tuned on 76 photographs and 200 drawn sitters with their copies, 5,360 pairs: 0.67 or more
 */
const UNALIGNED_DETAIL_LEAST = 0.6
/**
 * Least correlation of aligned heads, whichever is aligned with the other.
 * @tuned on 25 photographs and 200 drawn sitters with their copies, 7,840 pairs: 0.89 or more
 */
const ALIGNED_LEAST = 0.85
/**
 * Least correlation of their details.
 * @tuned on 25 photographs and 200 drawn sitters with their copies, 7,840 pairs: 0.96 or more
 */
const DETAIL_LEAST = 0.94
/**
 * Correlation of whole frames from which a pair is compared closely in any case.
 * @tuned on blurred copies, whose irises may be anywhere
 */
const ALIKE_FRAMES = 0.95
/**
 * How far heads may have to move, cells.
 * @tuned on 25 photographs and 200 drawn sitters with their copies, 7,840 pairs: an iris that is found wrong turns and
 *   stretches the whole head
 */
const REACH = { shift: 4, stretch: 0.5 }
/**
 * Least correlation of details after one round, whichever is aligned with the other.
 * @tuned on 25 photographs and 200 drawn sitters with their copies, 7,840 pairs: 0.92 or more
 */
const TRIAL_LEAST = 0.85
/** Rounds after that one. @tuned on the same pairs: no copy comes nearer by more */
const ROUNDS = 2
const TRIAL = limitsOf(REACH, { rounds: 1 })
const TO_THE_END = limitsOf(REACH, { rounds: ROUNDS })

export function selectable(signature: ReadySignature, face: Face | null | undefined): Selectable {
  const { head: grids } = signature
  const isKnown = face && face.confidence >= SURE && looksAhead(face)
  const frame = frameSketch(signature.frame.plain)
  return { signature, frame, head: isKnown && grids ? { grids, coarse: coarseGrid(grids.plain) } : null }
}

function looksAhead({ turnDeg, nodDeg }: Face): boolean {
  return Math.abs(turnDeg ?? Infinity) <= AHEAD_DEG && Math.abs(nodDeg ?? Infinity) <= AHEAD_DEG
}

/** Those of some pictures that may show the same as one, by their indexes: of those from `first` on that are `wanted`. */
export type Selection = (one: Selectable, first: number, wanted: (index: number) => boolean) => number[]

/**
 * Made ready to select among many, which takes microseconds a pair where {@link samePicture} takes a hundred times that. It leaves out
 * only where faces are well known and either the heads are unlike even once aligned, or both tones and faces differ.
 */
export function selectionAmong(pictures: readonly Selectable[]): Selection {
  const listed = (of: 'luma' | 'detail') =>
    correlationsWith(pictures.map(({ head }) => head?.coarse[of].plain ?? new Int16Array()))
  const [headsWith, detailsWith] = [listed('luma'), listed('detail')]
  const framesWith = innerProductsWith(pictures.map(({ frame }) => frame?.plain ?? new Float32Array()))
  return (one, first, wanted) => {
    const { coarse } = one.head ?? {}
    const heads = coarse && bothWays(headsWith, coarse.luma, first)
    const details = coarse && bothWays(detailsWith, coarse.detail, first)
    const frames = one.frame && bothWays(framesWith, one.frame, first)
    const selected: number[] = []
    for (let index = first; index < pictures.length; index++) {
      const other = pictures[index] as Selectable
      const likely =
        heads && details && other.head
          ? WAYS.filter(
              (way) =>
                (heads[way][index] as number) >= UNALIGNED_LEAST &&
                (details[way][index] as number) >= UNALIGNED_DETAIL_LEAST,
            )
          : WAYS
      const framesMayAgree =
        !frames || !other.frame || WAYS.some((way) => (frames[way][index] as number) >= ALIKE_FRAMES)
      if (likely.length === 0 && !framesMayAgree) continue
      if (wanted(index) && mayBeSame(one, other, likely, framesMayAgree)) selected.push(index)
    }
    return selected
  }
}

/** Of one as it is and in a mirror, against many as they are: which is the same as these in a mirror against it. */
function bothWays<L>(held: HeldAgainst<L>, one: Readonly<Record<Way, L>>, first: number) {
  return { plain: held(one.plain, first), mirror: held(one.mirror, first) }
}

const WAYS: readonly Way[] = ['plain', 'mirror']

function mayBeSame(a: Selectable, b: Selectable, likely: readonly Way[], framesMayAgree: boolean): boolean {
  if (!a.head || !b.head) return true
  const { signature: p } = a
  const { signature: q } = b
  if (
    framesMayAgree &&
    isOneShape(p.frame.plain, q.frame.plain) &&
    eitherWay(p.frame, q.frame) >= ALIKE_FRAMES
  )
    return true
  if (likely.length === 0 || !(tonesAgree(p, q) || facesMayAgree(p, q))) return false
  return headsMatch(
    sideOf(p, 'plain'),
    likely.map((way) => sideOf(q, way)),
  )
}

function isOneShape(a: ByteGrid, b: ByteGrid): boolean {
  return a.columns === b.columns && a.rows === b.rows
}

interface Side {
  readonly head: ByteGrid
  readonly face: ByteGrid | null
}

function sideOf({ head, coarseFace }: ReadySignature, way: Way): Side {
  if (!head) throw new Error('A head that is looked at is measured.')
  return { head: head[way], face: coarseFace?.[way] ?? null }
}

/** Whether one of the heads is like another once this is aligned with it, as a whole and in its details, and the faces then may be one. */
function headsMatch(first: Side, others: readonly Side[]): boolean {
  return withGrids((grids) => {
    const one = held(grids, first)
    return others.some((side) => {
      const other = held(grids, side)
      // Where that leads nowhere, aligning the one with the other may lead somewhere.
      return areAlike(grids, one, other) ?? areAlike(grids, other, one) ?? false
    })
  })
}

interface Held extends Side {
  readonly grid: HeldGrid
  readonly detail: () => HeldGrid
}

function held(grids: Grids, side: Side): Held {
  const grid = grids.hold(side.head)
  let known: HeldGrid | null = null
  return {
    ...side,
    grid,
    detail() {
      known ??= detailOf(grids, grid)
      return known
    },
  }
}

/** Null where they can't be aligned. */
function areAlike(grids: Grids, { grid, detail, face }: Held, other: Held): boolean | null {
  const begun = grids.align(grid, other.grid, IDENTITY, TRIAL)
  if (!begun) return null
  const detailsAlike = (aligned: HeldGrid) => grids.correlation(detail(), detailOf(grids, aligned))
  if (detailsAlike(grids.moved(other.grid, begun, grid)) < TRIAL_LEAST) return false
  const move = grids.align(grid, other.grid, begun, TO_THE_END)
  if (!move) return null
  const aligned = grids.moved(other.grid, move, grid)
  if (grids.correlation(grid, aligned) < ALIGNED_LEAST || detailsAlike(aligned) < DETAIL_LEAST) return false
  return face === null || other.face === null || facesMayMatch(grids, face, other.face, move)
}
