import { MODULE } from './module.ts'
import { bufferFor } from './recycling.ts'

type Kernel =
  | 'above'
  | 'addUpRows'
  | 'align'
  | 'bandSums'
  | 'between'
  | 'betweenRanks'
  | 'blurred'
  | 'bound'
  | 'brighter'
  | 'castVotes'
  | 'chroma'
  | 'circleContrasts'
  | 'clearestPath'
  | 'colorSums'
  | 'colorsAt'
  | 'common'
  | 'commonLine'
  | 'contrasts'
  | 'convolve'
  | 'correlation'
  | 'correlations'
  | 'countEnding'
  | 'countOf'
  | 'details'
  | 'distances'
  | 'edgePixels'
  | 'encodeLight'
  | 'erode'
  | 'errorsOutside'
  | 'everyNth'
  | 'fillSums'
  | 'fitSurface'
  | 'floodFill'
  | 'gather'
  | 'giveBack'
  | 'gradients'
  | 'graySquare'
  | 'graySums'
  | 'gridOf'
  | 'growIntoSmear'
  | 'halve'
  | 'improveCircle'
  | 'innerProducts'
  | 'interleave'
  | 'invert'
  | 'jointByteSums'
  | 'jointSums'
  | 'jumpsAcross'
  | 'lab'
  | 'lighten'
  | 'markPale'
  | 'markerFrom'
  | 'maskedMeans'
  | 'meanOfSquares'
  | 'meanRows'
  | 'moved'
  | 'nthSmallest'
  | 'outerPart'
  | 'overRed'
  | 'pick'
  | 'placesAlike'
  | 'powerInRings'
  | 'ranked'
  | 'regions'
  | 'rowSteps'
  | 'runsWithin'
  | 'shrinkRows'
  | 'slopes'
  | 'squaredSteps'
  | 'take'
  | 'taken'
  | 'tones'
  | 'transformRows'
  | 'turnEvidence'
  | 'turnRoom'
  | 'union'
  | 'valuesIn'
  | 'waysWithin'
  | 'weigh'
  | 'windowed'
  | 'without'
/** Of addresses, counts and numbers, as src/kernels/assembly declares them. */
export type Kernels = Record<Kernel, (...values: number[]) => number> & {
  readonly memory: WebAssembly.Memory
}

type Numbers = Uint8Array | Int16Array | Uint16Array | Int32Array | Float32Array | Float64Array

const module = new WebAssembly.Module(Buffer.from(MODULE, 'base64'))

/** 8-bit R, G, B of each pixel, row by row. */
export interface Picture {
  readonly data: Uint8Array
  readonly width: number
  readonly height: number
}

/** A part of a picture, whole px. */
export interface Rectangle {
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
}

/** Bytes of a color. */
export const CHANNELS = 3

/** The memory that kernels work in. Addresses are in bytes. */
export interface Memory {
  /** The address of a copy of the numbers. */
  put(numbers: Numbers): number
  /** The address of a copy of a part of a picture, row by row. @param channels bytes of a pixel */
  part(picture: Picture, part: Rectangle, channels?: number): number
  /** Copies the numbers to an address where there is room for them. */
  fill(at: number, numbers: Numbers): void
  /** The address of room for so many bytes; what it holds is not known. */
  room(bytes: number): number
  /** The address of so many bytes of 0. */
  zeros(bytes: number): number
  /** So many bytes as they are there, until more is taken. */
  seen(at: number, count: number): Uint8Array
  /** A copy of so many bytes. */
  bytes(at: number, count: number): Uint8Array
  /** A copy of so many 16-bit whole numbers. */
  shorts(at: number, count: number): Int16Array
  /** A copy of so many 32-bit whole numbers. */
  wholes(at: number, count: number): Int32Array
  /** A copy of so many 32-bit floats. */
  floats(at: number, count: number): Float32Array<ArrayBuffer>
  /** A copy of so many 64-bit floats. */
  doubles(at: number, count: number): Float64Array
}

/** Kernels with a memory of their own, for what is put there once and worked with many times. */
export function ownKernels(): { readonly kernels: Kernels; readonly memory: Memory } {
  const kernels = new WebAssembly.Instance(module).exports as Kernels
  // Growing the memory makes a new buffer, and takes the old one's length.
  const { memory } = kernels
  let all = new Uint8Array(memory.buffer)
  const put = (at: number, numbers: Numbers) => {
    if (all.length === 0) all = new Uint8Array(memory.buffer)
    const isBytes = numbers instanceof Uint8Array
    all.set(isBytes ? numbers : new Uint8Array(numbers.buffer, numbers.byteOffset, numbers.byteLength), at)
  }
  return {
    kernels,
    memory: {
      put(numbers) {
        const at = kernels.take(numbers.byteLength)
        put(at, numbers)
        return at
      },
      part({ data, width }, { left, top, ...size }, channels = CHANNELS) {
        const row = channels * size.width
        const at = kernels.take(row * size.height)
        const bytes = new Uint8Array(memory.buffer, at, row * size.height)
        // A part of a Buffer takes several times as long to make.
        const plain = new Uint8Array(data.buffer, data.byteOffset, data.byteLength)
        // Whole rows lie one after the other.
        const [rows, step] = size.width === width ? [1, row * size.height] : [size.height, row]
        for (let y = 0; y < rows; y++) {
          const from = channels * ((top + y) * width + left)
          bytes.set(plain.subarray(from, from + step), y * row)
        }
        return at
      },
      fill: put,
      room: (bytes) => kernels.take(bytes),
      zeros(bytes) {
        const at = kernels.take(bytes)
        new Uint8Array(memory.buffer, at, bytes).fill(0)
        return at
      },
      seen: (at, count) => new Uint8Array(memory.buffer, at, count),
      bytes: (at, count) => copied(Uint8Array, memory.buffer, at, count),
      shorts: (at, count) => copied(Int16Array, memory.buffer, at, count),
      wholes: (at, count) => copied(Int32Array, memory.buffer, at, count),
      floats: (at, count) => copied<Float32Array<ArrayBuffer>>(Float32Array, memory.buffer, at, count),
      doubles: (at, count) => copied(Float64Array, memory.buffer, at, count),
    },
  }
}

interface Kind<T> {
  readonly BYTES_PER_ELEMENT: number
  new (buffer: ArrayBuffer, at: number, count: number): T
}

function copied<T extends Numbers>(Kind: Kind<T>, buffer: ArrayBuffer, at: number, count: number): T {
  const copy = new Kind(bufferFor(Kind.BYTES_PER_ELEMENT * count), 0, count)
  copy.set(new Kind(buffer, at, count))
  return copy
}
