import { SURE } from '../measure/schema/confidence.ts'
import type { Face } from '../measure/schema/measurements.ts'
import { alignment, type Patience, type Reach } from './align-grids.ts'
import { type CoarseHead, coarseHead, headsLikeness } from './coarse-head.ts'
import { detailOf } from './detail-grid.ts'
import { type FrameSketch, frameSketch, mostAlike } from './frame-sketch.ts'
import { correlation } from './grid-likeness.ts'
import { IDENTITY, type LumaGrid, moved } from './luma-grid.ts'
import { eitherWay, facesMayAgree, tonesAgree } from './quick-likeness.ts'
import type { BothWays, ReadySignature, Way } from './ready-signature.ts'

/*
 * The pairs of a delivery that are compared closely. The limits were found on 25 photographs with 24 seeded copies each and
 * 200 drawn sitters with seven each: cropped to 85 %, mirrored, turned, graded, made as small as 130 px, saved at quality 25. Of
 * the 12,400 pairs among them that samePicture finds, none was lost.
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
  readonly coarse: CoarseHead
  readonly detail: LumaGrid
}

/**
 * Largest turn and nod of a face whose irises are well known, degrees.
 * @tuned on 25 photographs and 200 drawn sitters with their copies, 12,400 pairs: beyond it, in gray, they are up to 0.6
 *   eye distances off
 */
const AHEAD_DEG = 20
/**
 * Least correlation of coarse heads, aligned by the irises alone.
 * @tuned on 25 photographs and 200 drawn sitters with their copies, 12,400 pairs: 0.74 or more
 */
const UNALIGNED_LEAST = 0.6
/**
 * Least correlation of aligned heads.
 * @tuned on 25 photographs and 200 drawn sitters with their copies, 12,400 pairs: 0.94 or more
 */
const ALIGNED_LEAST = 0.9
/**
 * Least correlation of their details.
 * @tuned on 25 photographs and 200 drawn sitters with their copies, 12,400 pairs: 0.96 or more
 */
const DETAIL_LEAST = 0.9
/**
 * Correlation of whole frames from which a pair is compared closely in any case.
 * @tuned on blurred copies, whose irises may be anywhere
 */
const ALIKE_FRAMES = 0.95
/**
 * How far heads may have to move, cells.
 * @tuned on 25 photographs and 200 drawn sitters with their copies, 12,400 pairs: an iris that is found wrong turns and
 *   stretches the whole head
 */
const REACH: Reach = { shift: 4, stretch: 0.5 }
/**
 * When the search for an alignment gives up.
 * @tuned on 25 photographs and 200 drawn sitters with their copies, 12,400 pairs: each correlates by 0.93 or more after two
 *   rounds
 */
const QUICK: Patience = { rounds: 4, trial: 2, least: 0.85 }

export function selectable(signature: ReadySignature, face: Face | null | undefined): Selectable {
  const { head: grids } = signature
  const isKnown = face && face.confidence >= SURE && looksAhead(face)
  const whole = { signature, frame: frameSketch(signature.frame.plain) }
  if (!isKnown || !grids) return { ...whole, head: null }
  return { ...whole, head: { grids, coarse: coarseHead(grids.plain), detail: detailOf(grids.plain) } }
}

function looksAhead({ turnDeg, nodDeg }: Face): boolean {
  return Math.abs(turnDeg ?? Infinity) <= AHEAD_DEG && Math.abs(nodDeg ?? Infinity) <= AHEAD_DEG
}

/**
 * Whether two files may show one picture: a comparison that takes microseconds where {@link samePicture} takes a
 * hundred times that, for every pair of thousands of files. It says no only where faces are well known and either
 * the heads are unlike even once aligned, or both tones and faces differ.
 */
export function mayBeSame(a: Selectable, b: Selectable): boolean {
  if (!a.head || !b.head) return true
  if (framesAlike(a, b)) return true
  // Aligning a with b can end elsewhere than aligning b with a.
  return headsMayMatch(a, b) || headsMayMatch(b, a)
}

function framesAlike(a: Selectable, b: Selectable): boolean {
  if (a.frame && b.frame && mostAlike(a.frame, b.frame) < ALIKE_FRAMES) return false
  return eitherWay(a.signature.frame, b.signature.frame) >= ALIKE_FRAMES
}

function headsMayMatch({ signature, head }: Selectable, other: Selectable): boolean {
  if (!head || !other.head) return false
  const likely = waysAlike(head.coarse, other.head.coarse)
  if (likely.length === 0) return false
  if (!tonesAgree(signature, other.signature) && !facesMayAgree(signature, other.signature)) return false
  const { grids } = other.head
  return likely.some((way) => headsMatch(head, grids[way]))
}

function waysAlike(a: CoarseHead, b: CoarseHead): Way[] {
  const alike = headsLikeness(a, b)
  return WAYS.filter((way) => alike[way] >= UNALIGNED_LEAST)
}

const WAYS: readonly Way[] = ['plain', 'mirror']

/** Whether two heads are alike once the second is aligned with the first, as a whole and in their details. */
function headsMatch({ grids: { plain }, detail }: SelectableHead, other: LumaGrid): boolean {
  const move = alignment(plain, other, REACH, IDENTITY, QUICK)
  if (!move) return false
  const aligned = moved(other, move, plain)
  return (
    correlation(plain, aligned) >= ALIGNED_LEAST && correlation(detail, detailOf(aligned)) >= DETAIL_LEAST
  )
}
