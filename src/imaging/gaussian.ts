import { convolved } from '../kernels/convolution.ts'
import type { Patch } from './patch.ts'

/** How far the Gaussian reaches, sigmas. @choice its rest is a quarter of a percent. */
const REACH = 3

/** A patch blurred by a Gaussian; beyond its border the outermost pixels go on. @param sigma px */
export function blurred({ luma, width, height }: Patch, sigma: number): Patch {
  const reach = Math.ceil(REACH * sigma)
  const weights = Float64Array.from({ length: 2 * reach + 1 }, (_, i) =>
    Math.exp(-((i - reach) ** 2) / (2 * sigma * sigma)),
  )
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  const shares = new Float32Array(weights.map((weight) => weight / total))
  return { luma: convolved(luma, width, height, shares), width, height }
}
