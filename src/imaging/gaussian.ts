import type { Patch } from './patch.ts'

/** How far the Gaussian reaches, sigmas. @choice its rest is a quarter of a percent. */
const REACH = 3

/** A patch blurred by a Gaussian; beyond its border the outermost pixels go on. @param sigma px */
export function blurred({ luma, width, height }: Patch, sigma: number): Patch {
  const reach = Math.ceil(REACH * sigma)
  const weights = Array.from({ length: 2 * reach + 1 }, (_, i) =>
    Math.exp(-((i - reach) ** 2) / (2 * sigma * sigma)),
  )
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  const kernel = weights.map((weight) => weight / total)
  const across = new Float32Array(luma.length)
  const out = new Float32Array(luma.length)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let sum = 0
      for (let i = -reach; i <= reach; i++)
        sum += (kernel[i + reach] as number) * (luma[y * width + within(x + i, width)] as number)
      across[y * width + x] = sum
    }
  }
  for (let y = 0; y < height; y++) {
    for (let i = -reach; i <= reach; i++) {
      const row = within(y + i, height) * width
      const weight = kernel[i + reach] as number
      for (let x = 0; x < width; x++)
        out[y * width + x] = (out[y * width + x] as number) + weight * (across[row + x] as number)
    }
  }
  return { luma: out, width, height }
}

function within(index: number, count: number): number {
  return Math.min(count - 1, Math.max(0, index))
}
