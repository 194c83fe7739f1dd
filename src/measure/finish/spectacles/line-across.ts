import { quantile } from '../../../numbers/quantile.ts'
import { CELLS_PER_MM, type StripCells } from './face-strip.ts'

/** Half the thickness of the lines that are looked for, Gaussian sigma in mm. @choice wires are 1 mm thick and rims up to 4; no source. */
const SIGMA_MM = 1

/** How far columns are averaged along the line, Gaussian sigma in mm. @choice half of that across it; no source. */
const ALONG_SIGMA_MM = 0.5

/** How far a Gaussian reaches, sigmas. @choice its rest is below a thousandth. */
const REACH = 4

/**
 * Share of a line's columns that may be fainter than what is told of it: where a lens shines or hair hangs over it.
 * @tuned on 133 pictures of faces without spectacles and 124 with: 0.1, 0.2 and 0.35 were tried.
 */
const FAINT = 0.35

/** Cells beside a strip that its filter needs: rows above and below, and columns to both sides. */
export const MARGIN = {
  rows: REACH * SIGMA_MM * CELLS_PER_MM,
  columns: REACH * ALONG_SIGMA_MM * CELLS_PER_MM,
} as const

/**
 * Contrast of the clearest dark or bright line that runs across a strip from its left to its right, not steeper than 45°,
 * in the unit of its cells: the second derivative of a Gaussian, as ridges are found (Lindeberg, International Journal of
 * Computer Vision 30(2), 1998), along the path that adds up to most.
 */
export function lineAcross(strip: StripCells): number {
  const dark = ridges(strip)
  const bright = { ...dark, cells: dark.cells.map((value) => -value) }
  return Math.max(alongPath(dark), alongPath(bright))
}

/** How much darker each cell is than what is above and below it; the margin is cut off. */
function ridges({ cells, columns, rows }: StripCells): StripCells {
  const across = kernel(SIGMA_MM * CELLS_PER_MM, (t) => t * t - 1)
  const along = kernel(ALONG_SIGMA_MM * CELLS_PER_MM, () => 1)
  const width = columns - 2 * MARGIN.columns
  const height = rows - 2 * MARGIN.rows
  const filtered = new Float32Array(columns * height)
  for (let i = 0; i < filtered.length; i++) {
    let sum = 0
    for (let k = 0; k < across.length; k++) sum += (across[k] as number) * (cells[i + k * columns] as number)
    filtered[i] = sum
  }
  const out = new Float32Array(width * height)
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      let sum = 0
      for (let k = 0; k < along.length; k++)
        sum += (along[k] as number) * (filtered[y * columns + x + k] as number)
      out[i] = sum
    }
  }
  return { cells: out, columns: width, rows: height }
}

/** A Gaussian times a factor of the distance in sigmas, over the Gaussian's sum. @param sigma cells */
function kernel(sigma: number, factor: (t: number) => number): Float64Array {
  const reach = REACH * sigma
  const gauss = Float64Array.from({ length: 2 * reach + 1 }, (_, k) =>
    Math.exp(-0.5 * ((k - reach) / sigma) ** 2),
  )
  const sum = gauss.reduce((all, value) => all + value, 0)
  return gauss.map((value, k) => (value * factor((k - reach) / sigma)) / sum)
}

/** The value that most of the best path from the left to the right has. */
function alongPath({ cells, columns, rows }: StripCells): number {
  const from = new Int8Array(columns * rows)
  let sums = Float64Array.from({ length: rows }, (_, row) => cells[row * columns] as number)
  for (let column = 1; column < columns; column++) {
    const before = sums
    sums = before.map((_, row) => {
      let step = 0
      for (const other of [-1, 1])
        if ((before[row + other] ?? -Infinity) > (before[row + step] as number)) step = other
      from[row * columns + column] = step
      return (before[row + step] as number) + (cells[row * columns + column] as number)
    })
  }
  let row = sums.indexOf(Math.max(...sums))
  const values = new Float32Array(columns)
  for (let column = columns - 1; column >= 0; column--) {
    values[column] = cells[row * columns + column] as number
    row += from[row * columns + column] as number
  }
  return quantile(values, FAINT)
}
