import type { FaceAxes } from '../face/face-axes.ts'
import { EYES_TO_CROWN, EYES_TO_FACE, EYES_TO_HEAD } from '../face/proportions.ts'

/** Least length of a run that is hair or headwear, in face widths. @choice anything narrower is a strand that stands up */
const LEAST_RUN = 0.05

/** Breadth in which the crown is looked for, in head breadths. @choice room for hair beside the crown */
export const HEAD_BREADTHS = 1.15

/** From the eyes back to the middle of the head, distances between the eyes. @choice half the length of a head (about 96 mm, from memory of ANSUR II) less the depth of the eyes. */
const DEPTH = 1.2

const DEGREES = 180 / Math.PI

/** Where the crown is looked for, px. */
export interface HeadColumns {
  readonly left: number
  readonly right: number
  /** Shortest run that counts: a strand is narrower. */
  readonly leastRun: number
}

/** The head's columns where the published proportions have its crown: above the eyes, and behind them where the face is turned. */
export function headColumns({ midEyes, axis, eyeDistance }: FaceAxes, turnDeg: number): HeadColumns {
  const back = eyeDistance * DEPTH * Math.sin(turnDeg / DEGREES)
  const center = midEyes.x - (axis.x * eyeDistance) / EYES_TO_CROWN.mean - axis.y * back
  const half = (HEAD_BREADTHS * eyeDistance) / EYES_TO_HEAD.mean / 2
  return {
    left: center - half,
    right: center + half,
    leastRun: (LEAST_RUN * eyeDistance) / EYES_TO_FACE.mean,
  }
}

/** A stretch of one row. */
export interface Run {
  readonly row: number
  /** Its first column. */
  readonly start: number
  readonly length: number
}

/** What runs are looked for in, row by row. */
export interface Rows {
  readonly width: number
  readonly height: number
  /** 1 where something may be a head, of at least the rows before `end`. */
  readonly mask: (end: number) => Uint8Array
  /** How much each cell speaks for a head. */
  readonly weight: Float32Array
}

/** In cells, the ends rounded to whole ones. */
export function columnsIn({ left, right, leastRun }: HeadColumns, width: number): HeadColumns {
  return {
    left: Math.max(0, Math.round(left)),
    right: Math.min(width, Math.round(right)),
    leastRun: Math.max(2, Math.round(leastRun)),
  }
}

/** The longest run in the topmost row that has a long enough one, of cells with at least that weight. */
export function topRun(rows: Rows, columns: HeadColumns, least: number): Run | null {
  for (let row = 0; row < rows.height; row++) {
    const run = longestRun(rows, columns, row, least)
    if (run.length >= columns.leastRun) return run
  }
  return null
}

function longestRun({ mask, weight, width }: Rows, { left, right }: HeadColumns, row: number, least: number) {
  const cells = mask(row + 1)
  const begin = row * width
  let end = left
  let longest = 0
  for (let column = left, length = 0; column < right; column++) {
    const counts = cells[begin + column] === 1 && (weight[begin + column] as number) >= least
    length = counts ? length + 1 : 0
    if (length > longest) {
      longest = length
      end = column + 1
    }
  }
  return { row, start: end - longest, length: longest }
}
