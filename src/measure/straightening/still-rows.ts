import { type LumaStrip, lumaOf } from '../../kernels/sides.ts'
import type { Turned } from './canvas.ts'
import { depthAt, type FillLine } from './fill-line.ts'
import { linesOf } from './turn-search.ts'

/** Positions of a cell. @choice enough for a mean square, and short beside a wedge; 8 and 32 tell about as much */
const BIN = 16
/** Mean square that is added to each, squared codes. @tuned on 480 smeared and mirrored files and 1,500 others: 0.03 and 0.3 set them apart nearly as well */
const FLOOR = 0.1
/** Least spread of the logarithms, and how many spreads one cell tells at most. @choice flat pictures and one strong edge must not decide; no source */
const SPREAD = { least: 0.3, most: 3 } as const
/** How far outside of the line the middle of two rows lies whose difference begins to belong to the fill, px; one px farther all of it does. @choice the blur of the line */
const BORDER = -0.25
/** Fewest sides that are asked. @choice of two, one alone would decide */
const LEAST_SIDES = 3

/**
 * Turns outside of whose lines rows are stillest are looked at closely, too: how many, how still these must be in standard errors, and every how many
 * turns are looked at, an odd number, since both signs take turns. Repeated rows of a backdrop with hardly any grain show to all its rows together only.
 * @tuned on the same files: 4, 4 and 1 find two more
 */
const STILLEST = { count: 3, errors: 5, every: 3 } as const

/** How much each row of a strip differs from the next in bins of positions, beyond what its row and its bin do throughout. */
export interface RowDifferences {
  /** Sums over the rows further out of logarithms of mean squares, in their spreads, at `[row * bins + bin]`; one row more than there are. */
  readonly sums: Float32Array
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
  const [bins, rows] = [Math.floor(length / BIN), Math.max(0, depth - 1)]
  const cells = new Float32Array(bins * rows)
  const ofRow = new Float64Array(rows)
  const ofBin = new Float64Array(bins)
  for (let row = 0, i = 0; row < rows; row++)
    for (let bin = 0; bin < bins; bin++, i++) {
      const from = row * length + bin * BIN
      let sum = 0
      for (let at = from; at < from + BIN; at++) {
        const difference = (luma[at] as number) - (luma[at + length] as number)
        sum += difference * difference
      }
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
  const sums = new Float32Array(cells.length + bins)
  for (let i = 0; i < cells.length; i++) {
    const told = Math.max(-SPREAD.most, Math.min(SPREAD.most, (cells[i] as number) / spread))
    sums[i + bins] = (sums[i] as number) + told
  }
  return { sums, bins, rows }
}

/** Squares of sixteenths of a code in a squared code. @choice definition */
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

/** The turns outside of whose lines the rows of the sides are stillest. */
export function stillestTurns(
  sides: readonly RowDifferences[],
  strips: readonly LumaStrip[],
  turns: readonly Turned[],
): Turned[] {
  const found: { turned: Turned; errors: number }[] = []
  for (let i = 0; i < turns.length; i += STILLEST.every) {
    const turned = turns[i] as Turned
    const errors = stillOutside(sides, linesOf(strips, turned))
    if (errors >= STILLEST.errors) found.push({ turned, errors })
  }
  found.sort((p, q) => q.errors - p.errors)
  return found.slice(0, STILLEST.count).map(({ turned }) => turned)
}

/** By how many standard errors rows of one side differ less; null where less than one cell tells. */
function errorsOf({ sums, bins, rows }: RowDifferences, line: FillLine): number | null {
  // Of each row, the bins in which it is the last that lies outside, and the part of the next that does.
  const last = new Float64Array(rows + 1)
  const parts = new Float64Array(rows + 1)
  let [found, weights, squares, ofBins] = [0, 0, 0, 0]
  for (let bin = 0; bin < bins; bin++) {
    const outside = Math.min(rows, depthAt(line, (bin + 0.5) * BIN) - 1 - BORDER)
    if (outside <= 0) continue
    const whole = Math.floor(outside)
    const part = outside - whole
    const sum = sums[whole * bins + bin] as number
    found -= sum + (part > 0 ? part * ((sums[(whole + 1) * bins + bin] as number) - sum) : 0)
    last[whole] = (last[whole] as number) + 1
    parts[whole] = (parts[whole] as number) + part
    weights += outside
    squares += whole + part * part
    ofBins += outside * outside
  }
  let [ofRows, beyond] = [0, 0]
  for (let row = rows - 1; row >= 0; row--) {
    beyond += last[row + 1] as number
    ofRows += (beyond + (parts[row] as number)) ** 2
  }
  // What is left of the weights, too, when the means of rows and of bins are taken from them.
  const own = squares - ofRows / bins - ofBins / rows + (weights * weights) / (bins * rows)
  return own >= 1 ? found / Math.sqrt(own) : null
}
