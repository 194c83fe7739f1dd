import { convolvedAt } from '../kernels/convolution.ts'
import type { Patch } from './patch.ts'

/** How far the Gaussian reaches, sigmas. @choice its rest is a quarter of a percent. */
const REACH = 3

/**
 * What some pixels of a patch have when it is blurred by a Gaussian of each of some sigmas; beyond its border the outermost pixels go on.
 * @param sigmas px
 * @param pixels indexes
 */
export function blurredAt(
  { luma, width, height }: Patch,
  sigmas: readonly number[],
  pixels: Int32Array,
): Float32Array[] {
  return convolvedAt(luma, width, height, sigmas.map(gaussian), pixels)
}

/** Weights of a Gaussian, 1 in all. */
function gaussian(sigma: number): Float32Array {
  const reach = Math.ceil(REACH * sigma)
  const weights = new Float64Array(2 * reach + 1)
  let total = 0
  for (let i = 0; i < weights.length; i++) {
    const weight = Math.exp(-((i - reach) ** 2) / (2 * sigma * sigma))
    weights[i] = weight
    total += weight
  }
  const shares = new Float32Array(weights.length)
  for (let i = 0; i < shares.length; i++) shares[i] = (weights[i] as number) / total
  return shares
}
