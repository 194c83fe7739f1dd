import { expect, test } from 'vitest'
import { errorsOutside, rowDifferences, sumsOf } from '../../../src/kernels/strips/rows.ts'
import { stripKernels } from '../../../src/kernels/strips/sides.ts'
import { seeded } from '../../random.ts'

const BIN = 16
const [FLOOR, SPREAD] = [0.1, { least: 0.3, most: 3 }] as const

/** To the last bit: the same steps in the same order. */
function plainSums(luma: Int16Array, length: number, depth: number): Float32Array {
  const [bins, rows] = [Math.floor(length / BIN), depth - 1]
  const cells = new Float32Array(bins * rows)
  const [ofRow, ofBin] = [new Float64Array(rows), new Float64Array(bins)]
  for (let row = 0, i = 0; row < rows; row++)
    for (let bin = 0; bin < bins; bin++, i++) {
      let sum = 0
      for (let t = row * length + bin * BIN; t < row * length + (bin + 1) * BIN; t++)
        sum += ((luma[t] as number) - (luma[t + length] as number)) ** 2
      const value = Math.log(sum / (256 * BIN) + FLOOR)
      cells[i] = value
      ofRow[row] = (ofRow[row] as number) + value / bins
      ofBin[bin] = (ofBin[bin] as number) + value / rows
    }
  const all = ofRow.reduce((sum, value) => sum + value / rows, 0)
  const own = cells.map(
    (cell, i) => cell - (ofRow[Math.floor(i / bins)] as number) - (ofBin[i % bins] as number) + all,
  )
  let squares = 0
  for (const [i, cell] of cells.entries())
    squares += (cell - (ofRow[Math.floor(i / bins)] as number) - (ofBin[i % bins] as number) + all) ** 2
  const spread = Math.max(SPREAD.least, Math.sqrt(squares / cells.length))
  const sums = new Float32Array(cells.length + bins)
  for (const [i, cell] of own.entries())
    sums[i + bins] = (sums[i] as number) + Math.max(-SPREAD.most, Math.min(SPREAD.most, cell / spread))
  return sums
}

test.each([
  [160, 40, 4080],
  [131, 7, 60],
  [16, 2, 500],
])('rows of a strip of %i x %i', (length, depth, most) => {
  const next = seeded(length)
  const luma = Int16Array.from({ length: length * depth }, () => Math.floor(most * next()))
  const strip = { length, depth, luma: stripKernels.memory.put(luma) }
  const found = rowDifferences(strip, FLOOR, SPREAD)
  expect([found.bins, found.rows]).toEqual([Math.floor(length / BIN), depth - 1])
  const sums = sumsOf(found)
  expect([...sums]).toEqual([...plainSums(luma, length, depth)])
  // What is outside of a line, and that where none of it is nothing is told: tests/measure/straightening/still-rows.test.ts has the sums written out.
  const errors = errorsOutside(
    found,
    [
      { start: -9, slope: 0 },
      { start: depth, slope: 0 },
    ],
    0.25,
  )
  expect(errors[0]).toBeNaN()
  // All of it outside: the means of rows and of bins leave nothing of the weights.
  expect(errors[1]).toBeNaN()
})
