import { GRAIN } from '../../imaging/smoothing.ts'
import { above, slopes as gradientLengths } from '../../kernels/planes.ts'
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
  return above(slopes, least)
}

/** How fast lightness changes at each pixel, in L* per pixel. */
export function slopesOf(smooth: Float32Array, width: number, height: number): Float32Array {
  return gradientLengths(smooth, width, height, GRAIN)
}
