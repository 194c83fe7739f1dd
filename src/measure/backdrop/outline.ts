import { GRAIN } from '../../imaging/smoothing.ts'
import { upperMedian } from '../../numbers/quantile.ts'

/**
 * Least slope of the lightness that is the outline of something, L* per px at working size: a white coat before white paper differs in
 * nothing else.
 * @tuned on the drawn sitters in white coats, whose unevenness read up to twice the truth without it and within 2 % with it; a stop of
 * fall-off across the whole frame is 0.05.
 */
const SLOPE = 0.5

/** The same in median slopes of the backdrop, for grainy pictures and rough walls. @choice what is rarer on a backdrop than an outline; no source. */
const SLOPES = 5

/**
 * Marks (1) where lightness changes faster than a backdrop's can.
 * @param slopes of the lightness, as {@link slopesOf} tells them
 * @param border indexes of pixels that are backdrop if anything is
 */
export function findOutlines(slopes: Float32Array, border: Int32Array): Uint8Array {
  const usual = new Float32Array(border.length)
  for (let k = 0; k < usual.length; k++) usual[k] = slopes[border[k] as number] as number
  const least = Math.max(SLOPE, SLOPES * upperMedian(usual))
  const outline = new Uint8Array(slopes.length)
  for (let i = 0; i < outline.length; i++) outline[i] = (slopes[i] as number) > least ? 1 : 0
  return outline
}

/** How fast lightness changes at each pixel, in L* per pixel. */
export function slopesOf(smooth: Float32Array, width: number, height: number): Float32Array {
  const out = new Float32Array(smooth.length)
  for (let y = 0, i = 0; y < height; y++) {
    const above = Math.max(0, y - GRAIN)
    const below = Math.min(height - 1, y + GRAIN)
    for (let x = 0; x < width; x++, i++) {
      const left = Math.max(0, x - GRAIN)
      const right = Math.min(width - 1, x + GRAIN)
      const acrossEnds = (smooth[i - x + right] as number) - (smooth[i - x + left] as number)
      const downEnds = (smooth[below * width + x] as number) - (smooth[above * width + x] as number)
      const dx = acrossEnds / (right - left)
      const dy = downEnds / (below - above)
      out[i] = Math.sqrt(dx * dx + dy * dy)
    }
  }
  return out
}
