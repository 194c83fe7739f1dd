import { luminanceOf } from '../../color/lab.ts'

/** Least lightness, which keeps the logarithm finite, L*. @choice there is no light to speak of below. */
const BLACK = 0.01

/**
 * Difference in exposure between two lightnesses, in stops (log2 of the luminance ratio); positive when `to` is
 * lighter.
 * @param from L*, 0..100
 * @param to L*, 0..100
 */
export function stopsBetween(from: number, to: number): number {
  return Math.log2(luminanceOf(Math.max(to, BLACK)) / luminanceOf(Math.max(from, BLACK)))
}

/** A number or a range of stops with its noun, as photographers say it: "0.6 stop", "1.5 stops", "0.5 to 1 stop". */
export function stopText(stops: string): string {
  return `${stops} ${Number(stops.slice(stops.lastIndexOf(' ') + 1)) > 1 ? 'stops' : 'stop'}`
}
