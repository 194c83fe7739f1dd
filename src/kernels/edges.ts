import type { Planes } from './lab.ts'
import { ownKernels } from './memory.ts'

/** A picture in CIELAB, row by row. */
interface LabPicture {
  readonly lab: Planes
  readonly width: number
  readonly height: number
}

/** A picture that lies in the memory of edges: L*, a*, b* and 0 of each pixel, in single precision. */
export interface LaidPlanes extends Pick<LabPicture, 'width' | 'height'> {
  readonly at: number
}

/** One that lies there, too. */
export interface LaidPicture extends LabPicture, LaidPlanes {}

/** A picture as it is, and without its grain. */
export interface LaidSmoothly {
  readonly plain: LaidPicture
  readonly smooth: LaidPlanes
  /** How fast the lightness without grain changes at each pixel, as `slopes` of src/kernels/planes.ts tells it. */
  readonly slopes: Float32Array
}

/** A straight line that is read, in pixels: a point on it, its direction, and the normal towards the inner side. */
export interface Line {
  readonly x: number
  readonly y: number
  readonly dx: number
  readonly dy: number
  readonly nx: number
  readonly ny: number
  /** Positions along the line run from 0 to this. */
  readonly length: number
}

/** Pictures are read many times: they stay where kernels find them. */
export const edgeKernels = ownKernels()
const { kernels, memory } = edgeKernels

/** Bytes and numbers. */
const [FLOAT, DOUBLE] = [Float32Array.BYTES_PER_ELEMENT, Float64Array.BYTES_PER_ELEMENT]
const [EDGE, LINE] = [5, 8]
/** Numbers that are told of a line by {@link jumpsAcross}, and of one side of a piece by {@link bandSums}. */
export const [JUMP, BAND] = [4, 10] as const

/** Lays out a picture and its means over squares of `reach` px around each pixel; what was laid out before is gone. */
export function layOutSmoothly(picture: LabPicture, reach: number): LaidSmoothly {
  const { lab, width, height } = picture
  const count = lab.L.length
  kernels.giveBack(0)
  const [plain, smooth] = [memory.room(4 * FLOAT * count), memory.room(4 * FLOAT * count)]
  const before = kernels.taken()
  const [L, a, b] = [memory.put(lab.L), memory.put(lab.a), memory.put(lab.b)]
  kernels.interleave(L, a, b, count, plain)
  const sums = memory.room(FLOAT * width)
  const means = [L, a, b].map((plane) => {
    const out = memory.room(FLOAT * count)
    kernels.meanOfSquares(plane, out, sums, width, height, reach)
    return out
  })
  kernels.interleave(...means, count, smooth)
  // In place of the lightness with its grain.
  kernels.slopes(means[0] as number, L, width, height, reach)
  const slopes = memory.floats(L, count)
  kernels.giveBack(before)
  return { plain: { ...picture, at: plain }, smooth: { at: smooth, width, height }, slopes }
}

/** How fast color changes at some pixels, per px: the length of the longest gradient of L*, a* and b*, between the values `reach` px to each side as far as they lie in the frame. */
export function gradientsAt(
  { at, width, height }: LaidPlanes,
  pixels: Int32Array,
  reach: number,
): Float32Array {
  const before = kernels.taken()
  const out = memory.room(FLOAT * pixels.length)
  kernels.gradients(
    ...[at, width, height, reach, memory.put(pixels), pixels.length, memory.room(2 * DOUBLE), out],
  )
  const found = memory.floats(out, pixels.length)
  kernels.giveBack(before)
  return found
}

/** Pixels with their gradients, in the memory of edges until another picture is laid out. Of each five doubles: its middle (x, y), its gradient (dx, dy) and its weight. */
export interface EdgePixels {
  readonly at: number
  readonly count: number
}

/** Which pixels stand out. */
export interface Steep {
  /** Px to each side between which gradients are taken. */
  readonly reach: number
  /** Rows that are searched. */
  readonly first: number
  readonly end: number
  /** Least gradient, per px, and the largest weight that one may have. */
  readonly least: number
  readonly most: number
  /** Where none counts: within a radius of a place, px. */
  readonly around: { readonly x: number; readonly y: number; readonly radius: number }
}

/** The pixels where the longest gradient of L*, a* and b* is long enough, row by row, but for the outermost columns. */
export function edgePixels(
  picture: LaidPlanes,
  { reach, first, end, least, most, around }: Steep,
): EdgePixels {
  const { at, width, height } = picture
  const out = memory.room(EDGE * DOUBLE * width * Math.max(0, end - first) + EDGE * DOUBLE)
  const { x, y, radius } = around
  const rows = [reach, first, end]
  return { at: out, count: kernels.edgePixels(at, width, height, ...rows, least, most, x, y, radius, out) }
}

/** Bins of straight lines x cos(angle) + y sin(angle) = rho, with the middle of the frame as origin. */
export interface LineBins {
  readonly middle: { readonly x: number; readonly y: number }
  /** Bins of angles over half a turn, and how many to either side of a gradient's own it votes for. */
  readonly angles: number
  readonly near: number
  /** Size of the bins of rho, px. */
  readonly step: number
  /**
   * Of the bins of angles from `near` below minus half a turn to as many above half a turn: the cosines, the sines, and where the bins of rho 0 are.
   */
  readonly normals: Float64Array
  /** Bins in all. */
  readonly size: number
}

/** The sum of the weights of the edge pixels in each bin. */
export function castVotes(
  edges: EdgePixels,
  { middle, angles, near, step, normals, size }: LineBins,
): Float32Array {
  const before = kernels.taken()
  const votes = memory.zeros(FLOAT * size)
  const directions = [memory.put(normals), normals.length / 3, angles, near]
  kernels.castVotes(edges.at, edges.count, middle.x, middle.y, ...directions, step, votes)
  const cast = memory.floats(votes, size)
  kernels.giveBack(before)
  return cast
}

/**
 * How much color changes across each of some lines, from the inner to the outer side: how many places were read, and the sums of the changes of L*, a*
 * and b* there, each bounded; in double precision.
 * @param look places `apart` px to each side, every `stride` px along the line, none in rows from `below` on; each change counts as `most` at most
 */
export function jumpsAcross(
  { at, width, height }: LaidPlanes,
  lines: readonly Line[],
  look: { readonly apart: number; readonly stride: number; readonly most: number; readonly below: number },
): Float64Array {
  const before = kernels.taken()
  const put = putLines(lines)
  const out = memory.room(JUMP * DOUBLE * lines.length)
  const { apart, stride, most, below } = look
  kernels.jumpsAcross(at, width, height, put, lines.length, apart, stride, most, below, out)
  const jumps = memory.doubles(out, JUMP * lines.length)
  kernels.giveBack(before)
  return jumps
}

/**
 * Sums over the inner and the outer side of some pieces of a line, for the mean and the slope of each plane across it: how many pixels; their distances
 * from the line, negative outside, and the squares of these; L*, a* and b*; each of these times the distance; and bit n set when there are pixels n px
 * away. Pixels outside the frame are left out.
 * @param pieces where each begins along the line; `length` positions of it are read, at distances `from` to `to`
 * @param look the line moved inward by `shift`
 */
export function bandSums(
  { at, width, height }: LaidPlanes,
  line: Line,
  pieces: Float64Array,
  look: { readonly length: number; readonly shift: number; readonly from: number; readonly to: number },
): Float64Array {
  const before = kernels.taken()
  const count = 2 * BAND * pieces.length
  const out = memory.room(DOUBLE * count)
  const { length, shift, from, to } = look
  const places = [putLines([line]), memory.put(pieces), pieces.length]
  kernels.bandSums(at, width, height, ...places, length, shift, from, to, out)
  const sums = memory.doubles(out, count)
  kernels.giveBack(before)
  return sums
}

function putLines(lines: readonly Line[]): number {
  const numbers = new Float64Array(LINE * lines.length)
  for (let k = 0, i = 0; k < lines.length; k++, i += LINE) {
    const { x, y, dx, dy, nx, ny, length } = lines[k] as Line
    numbers[i] = x
    numbers[i + 1] = y
    numbers[i + 2] = dx
    numbers[i + 3] = dy
    numbers[i + 4] = nx
    numbers[i + 5] = ny
    numbers[i + 6] = length
  }
  return memory.put(numbers)
}
