import { interpolate } from '../../../imaging/interpolate.ts'
import { type EyeSquare, SQUARE } from './eye-square.ts'

/** In cells of a square around an eye. */
export interface Circle {
  readonly x: number
  readonly y: number
  readonly radius: number
}

export interface Contrasts {
  /** How much lighter it is outside of the edge than inside, codes; what lids and lights hide left out. */
  readonly contrast: number
  /** The same at the side where it is less: hair, lids and rims mostly look like one side of an iris only. */
  readonly leastContrast: number
}

/**
 * Most that one direction counts, codes: a light beside the edge is steeper.
 * @tuned on 102 eyes of 51 photographs with published marks: 80 does as well, 40 is a third worse
 */
const STEEPEST = 60

/** How the edge of a circle is read, in some directions to both sides. */
export interface EdgeReading {
  readonly gray: Float32Array
  /** The directions to one side, then those to the other. */
  readonly us: Float64Array
  readonly vs: Float64Array
  readonly hidden: number
  readonly beside: number
  /** Room for what one side has. */
  readonly steps: Float64Array
}

/**
 * @param lean of the line of the eyes, radians, clockwise
 * @param angles from it, degrees
 * @param hidden how many of one side's directions may be hidden
 * @param beside how far from the edge both sides are read, cells
 */
export function edgeAcross(
  { gray }: EyeSquare,
  lean: number,
  angles: readonly number[],
  hidden: number,
  beside: number,
): EdgeReading {
  const turns = [0, Math.PI].flatMap((side) =>
    angles.map((angle) => lean + side + ((side === 0 ? 1 : -1) * angle * Math.PI) / 180),
  )
  const [us, vs] = [Float64Array.from(turns, Math.cos), Float64Array.from(turns, Math.sin)]
  return { gray, us, vs, hidden, beside, steps: new Float64Array(angles.length) }
}

/** Across the edge of a circle. */
export function contrastsOf(edge: EdgeReading, circle: Circle): Contrasts {
  const [one, other] = [sideOf(edge, 0, circle), sideOf(edge, edge.steps.length, circle)]
  return { contrast: (one + other) / 2, leastContrast: Math.min(one, other) }
}

/** @param from the first of the side's directions */
function sideOf(
  { gray, us, vs, hidden, beside, steps }: EdgeReading,
  from: number,
  { x, y, radius }: Circle,
): number {
  const count = steps.length
  const [outer, inner] = [radius + beside, radius - beside]
  for (let k = 0; k < count; k++) {
    const u = us[from + k] as number
    const v = vs[from + k] as number
    const step = grayAt(gray, x + outer * u, y + outer * v) - grayAt(gray, x + inner * u, y + inner * v)
    const value = Math.min(step, STEEPEST)
    // In order: the few that there are take longer to hand over to a sort.
    let at = k
    for (; at > 0 && (steps[at - 1] as number) > value; at--) steps[at] = steps[at - 1] as number
    steps[at] = value
  }
  let sum = 0
  for (let k = hidden; k < count; k++) sum += steps[k] as number
  return sum / (count - hidden)
}

function grayAt(gray: Float32Array, x: number, y: number): number {
  const [column, row] = [Math.floor(x), Math.floor(y)]
  if (column < 0 || row < 0 || column >= SQUARE - 1 || row >= SQUARE - 1) return 0
  const i = row * SQUARE + column
  return interpolate(
    gray[i] as number,
    gray[i + 1] as number,
    gray[i + SQUARE] as number,
    gray[i + SQUARE + 1] as number,
    x - column,
    y - row,
  )
}
