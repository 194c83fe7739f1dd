/**
 * Mean of the values inside the mask within a square of `radius` pixels around some pixels; what lies outside the mask
 * has no say, so hair does not darken the backdrop beside it. NaN where no masked pixel is near.
 * @param pixels indexes, rising
 */
export function maskedMeansAt(
  pixels: Int32Array,
  values: Float32Array,
  mask: Uint8Array,
  width: number,
  height: number,
  radius: number,
): Float32Array {
  const out = new Float32Array(pixels.length)
  const sums = new Float64Array(width)
  const counts = new Int32Array(width)
  // Of all columns before one: what a square holds is a difference of two.
  const sumsBefore = new Float64Array(width + 1)
  const countsBefore = new Int32Array(width + 1)
  let next = 0
  let entered = 0
  let left = 0
  while (next < pixels.length) {
    const y = Math.floor((pixels[next] as number) / width)
    for (; entered < Math.min(height, y + radius + 1); entered++)
      addMasked(sums, counts, values, mask, entered * width, 1)
    for (; left < y - radius; left++) addMasked(sums, counts, values, mask, left * width, -1)
    for (let x = 0; x < width; x++) {
      sumsBefore[x + 1] = (sumsBefore[x] as number) + (sums[x] as number)
      countsBefore[x + 1] = (countsBefore[x] as number) + (counts[x] as number)
    }
    for (; next < pixels.length && (pixels[next] as number) < (y + 1) * width; next++) {
      const x = (pixels[next] as number) - y * width
      const from = Math.max(0, x - radius)
      const to = Math.min(width, x + radius + 1)
      const count = (countsBefore[to] as number) - (countsBefore[from] as number)
      const sum = (sumsBefore[to] as number) - (sumsBefore[from] as number)
      out[next] = count > 0 ? sum / count : Number.NaN
    }
  }
  return out
}

/** Adds what the mask covers of a row, times a factor, to the sums and the counts of the columns. */
function addMasked(
  sums: Float64Array,
  counts: Int32Array,
  values: Float32Array,
  mask: Uint8Array,
  start: number,
  factor: 1 | -1,
): void {
  for (let x = 0; x < sums.length; x++) {
    if (mask[start + x] !== 1) continue
    sums[x] = (sums[x] as number) + factor * (values[start + x] as number)
    counts[x] = (counts[x] as number) + factor
  }
}
