import { ownKernels } from './memory.ts'

const DOUBLE = Float64Array.BYTES_PER_ELEMENT
/** Numbers of a circle. */
export const CIRCLE = 3
/** And of one with what is told of it. */
const TOLD_CIRCLE = 5

/** A square of values, row by row, that lies in the memory of circles until the next one is laid out. */
export interface LaidSquare {
  readonly at: number
  readonly size: number
}

/** How the edge of a circle is read, in some directions to both sides. */
export interface EdgeReading {
  /** The directions to one side, then as many to the other. */
  readonly us: Float64Array
  readonly vs: Float64Array
  /** How many of one side's directions may be hidden. */
  readonly hidden: number
  /** How far from the edge both sides are read, cells. */
  readonly beside: number
  /** Most that one direction counts. */
  readonly steepest: number
}

/** How a circle is improved: by moves to the right, down and outwards, in steps of each of some sizes, as often at most. */
export interface CircleSearch {
  /** Three numbers each. */
  readonly moves: Float64Array
  readonly steps: Float64Array
  readonly rounds: number
  readonly radii: { readonly from: number; readonly to: number }
}

// The square stays there while many circles are tried.
const { kernels, memory } = ownKernels()

export function layOutSquare(values: Float32Array, size: number): LaidSquare {
  kernels.giveBack(0)
  return { at: memory.put(values), size }
}

/**
 * How much lighter it is outside of the edge of each of some circles than inside, without the sides' most hidden directions: in the mean of both sides,
 * and at the side where it is less.
 * @param circles x, y and radius of each, cells
 */
export function circleContrasts(square: LaidSquare, edge: EdgeReading, circles: Float64Array): Float64Array {
  const before = kernels.taken()
  const count = circles.length / CIRCLE
  const told = TOLD_CIRCLE - CIRCLE
  const out = memory.room(DOUBLE * told * count)
  kernels.circleContrasts(...placesOf(square, edge), memory.put(circles), count, out)
  const contrasts = memory.doubles(out, told * count)
  kernels.giveBack(before)
  return contrasts
}

/** The circle that a circle becomes when it is moved as long as its edge gets clearer: x, y, radius and its two contrasts. */
export function improvedCircle(
  square: LaidSquare,
  edge: EdgeReading,
  [x, y, radius]: readonly [number, number, number],
  { moves, steps, rounds, radii }: CircleSearch,
): Float64Array {
  const before = kernels.taken()
  const given = placesOf(square, edge)
  const circle = memory.put(Float64Array.of(x, y, radius, 0, 0))
  const there = memory.room(DOUBLE * TOLD_CIRCLE)
  kernels.improveCircle(
    ...[...given, memory.put(moves), moves.length / CIRCLE, memory.put(steps), steps.length],
    ...[rounds, radii.from, radii.to, circle, there],
  )
  const found = memory.doubles(circle, TOLD_CIRCLE)
  kernels.giveBack(before)
  return found
}

function placesOf(
  { at, size }: LaidSquare,
  { us, vs, hidden, beside, steepest }: EdgeReading,
): readonly number[] {
  const count = us.length / 2
  const steps = memory.room(DOUBLE * count)
  return [at, size, memory.put(us), memory.put(vs), count, hidden, beside, steepest, steps]
}
