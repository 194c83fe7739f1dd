import type { RgbPicture } from './rgb-picture.ts'

/** Channels of a color. @choice definition: red, green and blue. */
const CHANNELS = 3

interface Taps {
  /** Index of the first source pixel of each pixel, and as many weights for each. */
  readonly first: Int32Array
  readonly weights: Float32Array
  readonly each: number
}

/**
 * A smaller copy, each pixel the mean of the pixels around it, weighted by a triangle.
 * @param spread half width of the triangle, px of the copy
 */
export function reduced(
  { data, width, height }: RgbPicture,
  size: { readonly width: number; readonly height: number },
  spread: number,
): RgbPicture {
  const across = tapsOf(width, size.width, spread)
  const down = tapsOf(height, size.height, spread)
  const row = CHANNELS * size.width
  const lying = new Float32Array(row * height)
  for (let y = 0, to = 0; y < height; y++) {
    for (let x = 0, tap = 0; x < size.width; x++, to += CHANNELS) {
      let from = CHANNELS * (y * width + (across.first[x] as number))
      let [red, green, blue] = [0, 0, 0]
      for (let k = 0; k < across.each; k++, tap++, from += CHANNELS) {
        const weight = across.weights[tap] as number
        red += weight * (data[from] as number)
        green += weight * (data[from + 1] as number)
        blue += weight * (data[from + 2] as number)
      }
      lying[to] = red
      lying[to + 1] = green
      lying[to + 2] = blue
    }
  }
  const small = new Uint8ClampedArray(row * size.height)
  const sums = new Float32Array(row)
  for (let y = 0; y < size.height; y++) {
    sums.fill(0)
    for (let k = 0; k < down.each; k++) {
      const weight = down.weights[y * down.each + k] as number
      const from = row * ((down.first[y] as number) + k)
      for (let i = 0; i < row; i++) sums[i] = (sums[i] as number) + weight * (lying[from + i] as number)
    }
    small.set(sums, row * y)
  }
  return { data: new Uint8Array(small.buffer), ...size }
}

function tapsOf(from: number, to: number, spread: number): Taps {
  const reach = (spread * from) / to
  const each = Math.min(from, Math.ceil(2 * reach) + 1)
  const first = new Int32Array(to)
  const weights = new Float32Array(to * each)
  for (let i = 0; i < to; i++) {
    const center = ((i + 0.5) * from) / to - 0.5
    const start = Math.max(0, Math.min(from - each, Math.ceil(center - reach)))
    first[i] = start
    let sum = 0
    for (let k = 0; k < each; k++) sum += Math.max(0, 1 - Math.abs(start + k - center) / reach)
    for (let k = 0; k < each; k++)
      weights[i * each + k] = Math.max(0, 1 - Math.abs(start + k - center) / reach) / sum
  }
  return { first, weights, each }
}
