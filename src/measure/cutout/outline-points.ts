import type { Mask } from '../head/silhouette.ts'

/** A place on the sitter's outline and the direction in which the backdrop lies, in px of the mask. */
export interface OutlinePoint {
  readonly x: number
  readonly y: number
  /** Of length 1. */
  readonly outward: { readonly x: number; readonly y: number }
}

/** How far around a place its direction is read, px. @choice as far as smooths the steps of a mask; no source */
const AROUND = 3
/** Least length of the sum of directions, px. @choice of a straight outline it is 84; thin locks have less to go by */
const LEAST_SUM = 20

/**
 * Where the silhouette borders on backdrop, not on the frame.
 * @param backdrop 1 where the pixel is backdrop
 */
export function outlinePoints({ data, width, height }: Mask, backdrop: Uint8Array): OutlinePoint[] {
  const points: OutlinePoint[] = []
  for (let y = AROUND; y < height - AROUND; y++) {
    for (let x = AROUND; x < width - AROUND; x++) {
      const i = y * width + x
      if (data[i] !== 1) continue
      if (!backdrop[i - 1] && !backdrop[i + 1] && !backdrop[i - width] && !backdrop[i + width]) continue
      const outward = outwardAt(backdrop, width, i)
      if (outward) points.push({ x: x + 0.5, y: y + 0.5, outward })
    }
  }
  return points
}

function outwardAt(backdrop: Uint8Array, width: number, i: number): OutlinePoint['outward'] | null {
  let [x, y] = [0, 0]
  for (let down = -AROUND; down <= AROUND; down++) {
    for (let right = -AROUND; right <= AROUND; right++) {
      if (backdrop[i + down * width + right] !== 1) continue
      x += right
      y += down
    }
  }
  const length = Math.hypot(x, y)
  return length < LEAST_SUM ? null : { x: x / length, y: y / length }
}
