import { ownKernels } from './memory.ts'

const FLOAT = Float32Array.BYTES_PER_ELEMENT
/** Bytes of stack a pixel: a run enters its two neighbors' at every other pixel at most. @choice definition: two indexes. */
const STACK = 2 * Int32Array.BYTES_PER_ELEMENT
/** Numbers of three parabolas c0 + c1 x + c2 x^2. */
const TERMS = 9

/** A plane for each channel. */
export type Planes = readonly [Float32Array, Float32Array, Float32Array]

const { kernels, memory } = ownKernels()

/**
 * What floods run over, row by row, in a memory of its own: how far each pixel is from what floods is read there again and again. One at a time: a new
 * one takes the place of the last.
 */
export class Ground {
  readonly #width: number
  readonly #count: number
  readonly #seeds: { readonly at: number; readonly count: number }
  /** Addresses. */
  readonly #outline: number
  readonly #distance: number
  readonly #ways: number
  readonly #mask: number
  readonly #stack: number

  /**
   * @param outline 1 where the flood stops although the distance is small
   * @param seeds indexes of pixels from which it may begin
   */
  constructor(outline: Uint8Array, width: number, seeds: Int32Array) {
    kernels.giveBack(0)
    this.#width = width
    this.#count = outline.length
    this.#seeds = { at: memory.put(seeds), count: seeds.length }
    this.#outline = memory.put(outline)
    this.#distance = memory.room(FLOAT * outline.length)
    this.#ways = memory.room(outline.length)
    this.#mask = memory.room(outline.length)
    this.#stack = memory.room(STACK * outline.length)
  }

  /** How far each pixel is from what floods. */
  get distance(): Float32Array {
    return memory.floats(this.#distance, this.#count)
  }

  set distance(distance: Float32Array) {
    memory.fill(this.#distance, distance)
  }

  /** What was flooded last, 1, else 0. */
  get mask(): Uint8Array {
    return memory.bytes(this.#mask, this.#count)
  }

  /** Puts planes where {@link readDistances} finds them. @param us x of each column */
  put(planes: Planes, us: Float32Array): GroundPlanes {
    const [L, a, b] = planes
    const room = memory.room(FLOAT * TERMS * (this.#count / this.#width))
    return { planes: [memory.put(L), memory.put(a), memory.put(b)], us: memory.put(us), room }
  }

  /**
   * Reads how far the values of three planes are from three parabolas a row, all three together (Euclidean), in the first rows.
   * @param terms of each row the parabolas of the three planes, three numbers each
   */
  readDistances({ planes, us, room }: GroundPlanes, terms: Float32Array): void {
    memory.fill(room, terms)
    kernels.distances(this.#distance, ...planes, us, room, this.#width, terms.length / TERMS)
  }

  /** Keeps a flood from all pixels of the first rows that are 1. */
  bar(foreign: Uint8Array, rows: number): void {
    const { buffer } = memory.seen(this.#distance, 0)
    const distance = new Float32Array(buffer, this.#distance, rows * this.#width)
    for (let i = 0; i < distance.length; i++) if (foreign[i] === 1) distance[i] = Number.POSITIVE_INFINITY
  }

  /**
   * Floods the pixels of the first `rows` rows within the threshold that connect to a seed (4-neighbors) without crossing an outline, and of those on
   * outlines what is at most `smear` pixels away from them through what is.
   */
  flood(threshold: number, rows: number, smear: number): void {
    const end = Math.min(this.#count, rows * this.#width)
    const [mask, ways, width, stack] = [this.#mask, this.#ways, this.#width, this.#stack]
    memory.seen(mask, this.#count).fill(0)
    kernels.waysWithin(this.#distance, this.#outline, ways, end, threshold)
    kernels.floodFill(ways, mask, width, end, this.#seeds.at, this.#seeds.count, stack)
    kernels.growIntoSmear(mask, ways, width, end, smear, stack)
  }

  /** Indexes of about `most` of the pixels that were flooded, evenly, in their order; of all when they are fewer. */
  samples(most: number): Int32Array {
    const count = kernels.countOf(this.#mask, this.#count)
    const step = Math.max(1, count / most)
    const length = Math.floor(count / step)
    kernels.everyNth(this.#mask, step, length, this.#stack)
    return memory.wholes(this.#stack, length)
  }
}

/** Addresses of planes, of the x of their columns, and of room for parabolas. */
export interface GroundPlanes {
  readonly planes: readonly [number, number, number]
  readonly us: number
  readonly room: number
}
