import { convolved } from '../kernels/convolution.ts'
import type { Patch } from './patch.ts'

/** How far the Gaussian reaches, sigmas. @choice its rest is a quarter of a percent. */
const REACH = 3

/** A patch blurred by a Gaussian; beyond its border the outermost pixels go on. @param sigma px */
export function blurred({ luma, width, height }: Patch, sigma: number): Patch {
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
  return { luma: convolved(luma, width, height, shares), width, height }
}
