import { type LumaStrip, lumaOf } from '../../kernels/sides.ts'
import { depthAt, type FillLine } from './fill-line.ts'

/** Positions of a cell. @choice enough for a mean square, and short beside a wedge; 8 and 32 tell about as much */
const BIN = 16
/** Mean square that is added to each, squared codes. @tuned on 480 smeared and mirrored files and 1,500 others: 0.03 and 0.3 set them apart nearly as well */
const FLOOR = 0.1
/** Least spread of the logarithms, and how many spreads one cell tells at most. @choice flat pictures and one strong edge must not decide; no source */
const SPREAD = { least: 0.3, most: 3 } as const
/** Between which distances outside of the line the difference of two rows comes to belong to the fill, px. @choice the blur of the line */
const BORDER = { from: -0.5, to: 1 } as const
/** Fewest sides that are asked. @choice of two, one alone would decide */
const LEAST_SIDES = 3

/** How much each row of a strip differs from the next in bins of positions, beyond what its row and its bin do throughout. */
export interface RowDifferences {
  /** Logarithms of mean squares in their spreads, at `[row * bins + bin]`. */
  readonly cells: Float32Array
  readonly bins: number
  readonly rows: number
}

/**
 * Grain, and what JPEG leaves of it, makes rows differ; repeated rows don't.
 * @source two-way analysis of variance: what the means of rows and of columns do not explain (blocks of JPEG along the frame, hair across it)
 */
export function rowDifferences(strip: LumaStrip): RowDifferences {
  const { length, depth } = strip
  const luma = lumaOf(strip)
  const [bins, rows] = [Math.floor(length / BIN), depth - 1]
  const cells = new Float32Array(bins * rows)
  const ofRow = new Float64Array(rows)
  const ofBin = new Float64Array(bins)
  for (let row = 0, i = 0; row < rows; row++)
    for (let bin = 0; bin < bins; bin++, i++) {
      const from = row * length + bin * BIN
      let sum = 0
      for (let at = from; at < from + BIN; at++)
        sum += ((luma[at] as number) - (luma[at + length] as number)) ** 2
      const value = Math.log(sum / (SQUARES * BIN) + FLOOR)
      cells[i] = value
      ofRow[row] = (ofRow[row] as number) + value / bins
      ofBin[bin] = (ofBin[bin] as number) + value / rows
    }
  let all = 0
  for (const value of ofRow) all += value / rows
  let squares = 0
  for (let row = 0, i = 0; row < rows; row++)
    for (let bin = 0; bin < bins; bin++, i++) {
      const own = (cells[i] as number) - (ofRow[row] as number) - (ofBin[bin] as number) + all
      cells[i] = own
      squares += own * own
    }
  const spread = Math.max(SPREAD.least, Math.sqrt(squares / cells.length))
  for (let i = 0; i < cells.length; i++)
    cells[i] = Math.max(-SPREAD.most, Math.min(SPREAD.most, (cells[i] as number) / spread))
  return { cells, bins, rows }
}

/** Squares of sixteenths of a code in a squared code. */
const SQUARES = 256

/**
 * By how many standard errors rows differ less from the next outside of some lines, one for each side, than elsewhere; without the side that shows it
 * most, since one may have lines of its own. 0 where less than three sides tell.
 */
export function stillOutside(sides: readonly RowDifferences[], lines: readonly FillLine[]): number {
  const errors: number[] = []
  for (let i = 0; i < sides.length; i++) {
    const told = errorsOf(sides[i] as RowDifferences, lines[i] as FillLine)
    if (told !== null) errors.push(told)
  }
  if (errors.length < LEAST_SIDES) return 0
  let sum = -Math.max(...errors)
  for (const each of errors) sum += each
  return sum / Math.sqrt(errors.length - 1)
}

/** The same of one side; null where less than one cell tells. */
function errorsOf({ cells, bins, rows }: RowDifferences, line: FillLine): number | null {
  const ofRow = new Float64Array(rows)
  let [found, weights, squares, ofBins] = [0, 0, 0, 0]
  for (let bin = 0; bin < bins; bin++) {
    const depth = depthAt(line, (bin + 0.5) * BIN)
    let ofBin = 0
    for (let row = 0; row < Math.min(rows, depth - 1 - BORDER.from); row++) {
      const weight = Math.min(1, (depth - (row + 1) - BORDER.from) / (BORDER.to - BORDER.from))
      found -= weight * (cells[row * bins + bin] as number)
      squares += weight * weight
      ofBin += weight
      ofRow[row] = (ofRow[row] as number) + weight
    }
    weights += ofBin
    ofBins += ofBin * ofBin
  }
  let ofRows = 0
  for (const weight of ofRow) ofRows += weight * weight
  // What is left of the weights, too, when the means of rows and of bins are taken from them.
  const own = squares - ofRows / bins - ofBins / rows + (weights * weights) / (bins * rows)
  return own < 1 ? null : found / Math.sqrt(own)
}
