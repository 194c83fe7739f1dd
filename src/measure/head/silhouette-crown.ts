import { union } from '../../kernels/masks.ts'
import { type Backdrop, maskAt } from '../backdrop/backdrop.ts'
import type { FaceGeometry, Pixel } from '../face/face-axes.ts'
import { findCrown } from './crown.ts'
import type { HeadColumns } from './head-columns.ts'

/** Thresholds of the backdrop at which the crown must stay where it is, times the one chosen. @choice plainly tighter and plainly wider, no source. */
const THRESHOLDS = [0.75, 1.5]

/** How far it may move then, share of the frame height. @choice the error that a headroom may have at most, no source. */
const STEADY = 0.01

/** Least backdrop that sets two things apart, one above the other, share of the frame height. @choice more than an edge's blur, no source. */
const BLURRED = 0.01

/**
 * The crown of a sitter before a plain backdrop; null where the head merges with the backdrop: where a somewhat wider or narrower reading of
 * it would have the crown elsewhere, and where something else stands right above, or is what reaches highest.
 */
export function silhouetteCrown(backdrop: Backdrop, face: FaceGeometry, columns: HeadColumns): Pixel | null {
  const { width, height, foreign, distance } = backdrop
  const crownFor = (mask: Uint8Array) => {
    const data = foreign ? union(mask, foreign) : mask
    return findCrown({ data, width, height }, distance, face, columns)
  }
  const crown = crownFor(backdrop.mask)
  if (!crown || isUnderForeign(crown, backdrop) || isClearOfHead(crown, face, backdrop)) return null
  const steady = THRESHOLDS.every((factor) => {
    const other = crownFor(maskAt(backdrop, factor * backdrop.threshold))
    return other !== null && Math.abs(other.y - crown.y) <= STEADY * height
  })
  return steady ? crown : null
}

/** What stands directly above the crown may hide the rest of it. */
function isUnderForeign({ x, y }: Pixel, { foreign, width, height }: Backdrop): boolean {
  const above = Math.round(y - BLURRED * height) * width + Math.floor(x)
  return foreign !== null && above >= 0 && foreign[above] === 1
}

/** Whether backdrop shows between what was found and the eyes: an arm, a cable or a hoop over the head is no crown. */
function isClearOfHead(
  { x, y }: Pixel,
  { midEyes }: FaceGeometry,
  { mask, width, height }: Backdrop,
): boolean {
  const end = Math.min(height, Math.round(midEyes.y))
  let gap = 0
  for (let row = Math.round(y); row < end && gap <= BLURRED * height; row++)
    gap = mask[row * width + Math.floor(x)] === 1 ? gap + 1 : 0
  return gap > BLURRED * height
}
