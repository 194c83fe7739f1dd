import type { Backdrop } from '../backdrop/backdrop.ts'
import { alongOf, type FrameLine, inwardOf } from './frame-line.ts'

/** A part of the frame beyond a straight edge of the backdrop: 1 where it covers a pixel. */
export interface EdgeRegion {
  readonly mask: Uint8Array
  readonly area: number
}

/** The share of a region whose color distance from the backdrop is at most `most`. */
export function shareOfBackdrop({ mask, area }: EdgeRegion, { distance }: Backdrop, most: number): number {
  let n = 0
  for (let i = 0; i < mask.length; i++) if (mask[i] === 1 && (distance[i] as number) <= most) n++
  return area === 0 ? 0 : n / area
}

/** What lies beyond the line, between two places along it. */
export function regionBeyond(
  line: FrameLine,
  { from, to }: { readonly from: number; readonly to: number },
  width: number,
  height: number,
): EdgeRegion {
  const mask = new Uint8Array(width * height)
  let area = 0
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      const place = { x: x + 0.5, y: y + 0.5 }
      if (inwardOf(line, place) >= 0) continue
      const along = alongOf(line, place)
      if ((from > 0 && along < from) || (to < line.length && along > to)) continue
      mask[i] = 1
      area++
    }
  }
  return { mask, area }
}

/** How much larger the region of an inner edge is, times that of the outer one. @choice less is the same edge found twice, no source. */
const LARGER = 1.15

/** Of two edges one behind the other, the inner one bounds what has to go. */
export function keepLargest(regions: EdgeRegion[], region: EdgeRegion): void {
  for (const [i, other] of regions.entries()) {
    let common = 0
    for (let k = 0; k < region.mask.length; k++) if (region.mask[k] === 1 && other.mask[k] === 1) common++
    if (common < 0.5 * Math.min(region.area, other.area)) continue
    if (region.area > LARGER * other.area) regions[i] = region
    return
  }
  if (region.area > 0) regions.push(region)
}
