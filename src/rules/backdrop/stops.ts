const EPSILON = 216 / 24389
const KAPPA = 24389 / 27
// L* at which there is no light to speak of; keeps the logarithm finite.
const BLACK = 0.01

/**
 * Difference in exposure between two lightnesses, in stops (log2 of the luminance ratio); positive when `to` is
 * lighter. L* to relative luminance: CIE 15:2004, the inverse of L* = 116 f(Y) - 16.
 * @param from L*, 0..100
 * @param to L*, 0..100
 */
export function stopsBetween(from: number, to: number): number {
  return Math.log2(luminance(to) / luminance(from))
}

function luminance(L: number): number {
  const lightness = Math.max(L, BLACK)
  const cube = ((lightness + 16) / 116) ** 3
  return cube > EPSILON ? cube : lightness / KAPPA
}
