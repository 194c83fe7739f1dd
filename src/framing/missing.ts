import type { Limits } from '../numbers/limits.ts'
import type { Size } from './ask.ts'
import { clamp } from './axis.ts'
import type { CropBox, Missing } from './crop-box.ts'
import type { Fit } from './fit.ts'

/** The part that a crop of its size takes where it reaches least beyond the frame, in px of the frame. */
export function nearestBox({ width, height, left, top }: Fit, { widthPx, heightPx }: Size): CropBox {
  return {
    leftPx: nearestStart(left, width, widthPx),
    topPx: nearestStart(top, height, heightPx),
    widthPx: width,
    heightPx: height,
  }
}

/** How far a part reaches beyond each side of the frame, in px; 0 where it lies within. */
export function missingAround({ leftPx, topPx, widthPx, heightPx }: CropBox, frame: Size): Missing {
  return {
    abovePx: Math.max(0, -topPx),
    belowPx: Math.max(0, topPx + heightPx - frame.heightPx),
    leftPx: Math.max(0, -leftPx),
    rightPx: Math.max(0, leftPx + widthPx - frame.widthPx),
  }
}

export function totalMissing({ abovePx, belowPx, leftPx, rightPx }: Missing): number {
  return abovePx + belowPx + leftPx + rightPx
}

/** The whole-pixel start within its limits from which a crop reaches least over both ends of an edge of the frame. */
function nearestStart(starts: Limits, size: number, edge: number): number {
  const inside = { min: Math.min(0, edge - size), max: Math.max(0, edge - size) }
  const start = clamp(clamp((starts.min + starts.max) / 2, inside), starts)
  return clamp(Math.round(start), starts)
}
