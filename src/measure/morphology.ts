/**
 * Shrinks a 0/1 mask by a square of `radius` pixels: a pixel stays only if all pixels within `radius`
 * of it (inside the frame) are set. Two passes of running counts, so the time does not grow with the radius.
 */
export function erode(mask: Uint8Array, width: number, height: number, radius: number): Uint8Array {
  if (radius <= 0) return mask.slice()
  const across = new Uint8Array(mask.length)
  for (let y = 0; y < height; y++) erodeLine(mask, across, y * width, 1, width, radius)
  const out = new Uint8Array(mask.length)
  for (let x = 0; x < width; x++) erodeLine(across, out, x, width, height, radius)
  return out
}

/** Takes off what is thinner than `2 x radius + 1` pixels and leaves the rest as it was: erosion, then dilation. */
export function open(mask: Uint8Array, width: number, height: number, radius: number): Uint8Array {
  const complement = erode(mask, width, height, radius).map((value) => 1 - value)
  return erode(complement, width, height, radius).map((value) => 1 - value)
}

function erodeLine(
  from: Uint8Array,
  to: Uint8Array,
  start: number,
  step: number,
  length: number,
  radius: number,
): void {
  let holes = 0
  for (let i = 0; i < Math.min(radius, length); i++) holes += 1 - (from[start + i * step] as number)
  for (let i = 0; i < length; i++) {
    if (i + radius < length) holes += 1 - (from[start + (i + radius) * step] as number)
    if (i - radius - 1 >= 0) holes -= 1 - (from[start + (i - radius - 1) * step] as number)
    to[start + i * step] = holes === 0 ? 1 : 0
  }
}

/**
 * Mean of the values inside the mask within a square of `radius` pixels around each pixel; what lies outside
 * the mask has no say, so hair does not darken the backdrop beside it. NaN where no masked pixel is near.
 */
export function maskedMean(
  values: Float32Array,
  mask: Uint8Array,
  width: number,
  height: number,
  radius: number,
): Float32Array {
  const sums = integral(width, height, (i) => (mask[i] === 1 ? (values[i] as number) : 0))
  const counts = integral(width, height, (i) => mask[i] as number)
  const out = new Float32Array(values.length)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const box = [
        Math.max(0, x - radius),
        Math.max(0, y - radius),
        Math.min(width, x + radius + 1),
        Math.min(height, y + radius + 1),
      ] as const
      const n = boxSum(counts, width, ...box)
      out[y * width + x] = n > 0 ? boxSum(sums, width, ...box) / n : Number.NaN
    }
  }
  return out
}

function integral(width: number, height: number, value: (i: number) => number): Float64Array {
  const row = width + 1
  const out = new Float64Array(row * (height + 1))
  for (let y = 0; y < height; y++) {
    let line = 0
    for (let x = 0; x < width; x++) {
      line += value(y * width + x)
      out[(y + 1) * row + x + 1] = (out[y * row + x + 1] as number) + line
    }
  }
  return out
}

function boxSum(
  table: Float64Array,
  width: number,
  left: number,
  top: number,
  right: number,
  bottom: number,
): number {
  const row = width + 1
  const at = (x: number, y: number) => table[y * row + x] as number
  return at(right, bottom) - at(left, bottom) - at(right, top) + at(left, top)
}
