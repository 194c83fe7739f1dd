import type { Patch } from '../../../imaging/patch.ts'

/** Columns to each side whose mean a column is held against. @choice a block of JPEG: with both sides two of them, whose edges then weigh alike. */
const AROUND = 8

/** Added to that mean, codes, so that areas of one code have no say. @choice what rounding to whole codes adds, no source. */
const LEAST = 0.3

/**
 * How rough a picture is in each column, by the size of second differences, beside the columns around it; about 1 where all are
 * alike. Each pixel weighs the same, wherever it lies: it is held against its own surroundings.
 * @source Gallagher, "Detection of linear and cubic interpolation in JPEG compressed images", CRV 2005, reads the variance of second
 *   differences by column; held against the surroundings here, so that a few strong edges don't drown the rest. From memory.
 */
export function columnRhythm({ luma, width, height }: Patch): Float64Array {
  const sums = new Float64Array(width)
  const bend = new Float32Array(width)
  for (let y = 0, start = 0; y < height; y++, start += width) {
    for (let x = 1; x < width - 1; x++)
      bend[x] = Math.abs(
        2 * (luma[start + x] as number) - (luma[start + x + 1] as number) - (luma[start + x - 1] as number),
      )
    addShares(sums, bend)
  }
  // The ends lack surroundings.
  return sums.subarray(2 * AROUND, width - 2 * AROUND).map((sum) => sum / height)
}

/** The patch with its rows as columns. */
export function turned({ luma, width, height }: Patch): Patch {
  const columns = new Float32Array(luma.length)
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) columns[x * height + y] = luma[i] as number
  }
  return { luma: columns, width: height, height: width }
}

/** Adds to each sum the value of one line's pixel as a share of what is around it in that line. */
function addShares(sums: Float64Array, values: Float32Array): void {
  let around = 0
  for (let x = 1; x <= 2 * AROUND + 1; x++) around += values[x] as number
  for (let x = AROUND + 1; x < values.length - AROUND - 1; x++) {
    sums[x] = (sums[x] as number) + (values[x] as number) / (around / (2 * AROUND + 1) + LEAST)
    around += (values[x + AROUND + 1] as number) - (values[x - AROUND] as number)
  }
}
