import { type Axis, axisOf, within } from './axis.ts'
import { type Kernels, type Memory, withKernels } from './memory.ts'

/** 8-bit R, G, B of each pixel, row by row. */
interface Picture {
  readonly data: Uint8Array
  readonly width: number
  readonly height: number
}

/** Bytes of a color. */
const CHANNELS = 3

/** Rows of the copy that are made at a time. @choice what they are made of fits into a processor's second cache */
const ROWS = 16

/** Pixels laid beyond both ends of a row: more than neighbors ever reach. */
const MARGIN = 16

/**
 * A copy made smaller by a factor of more than 1 along both axes: means of whole blocks as far as a factor of 2 at least is left, then a triangle as wide
 * as what is left. To the last bit as the picture library makes it with `fit: 'inside'` and `kernel: 'linear'`, in half of its time.
 * @source libvips 8.18: `vips_resize` with a gap of 2, `vips_shrink` and `vips_reduce`.
 */
export function shrunk(picture: Picture, factor: number): Picture & { readonly data: Buffer } {
  const [across, down] = [axisOf(picture.width, factor), axisOf(picture.height, factor)]
  const data = Buffer.allocUnsafeSlow(CHANNELS * across.length * down.length)
  withKernels((kernels, memory) => writeCopy(kernels, memory, picture, across, down, data))
  return { data, width: across.length, height: down.length }
}

/** A function of its own: V8 drops the code of those that are made for a call. */
function writeCopy(
  kernels: Kernels,
  memory: Memory,
  { data, width, height }: Picture,
  across: Axis,
  down: Axis,
  out: Buffer,
): void {
  const made = CHANNELS * across.length
  const bytes = CHANNELS * width
  const strips = stripsOf(down)
  const most = Math.max(...strips.map(({ first, last }) => last + 1 - first))
  const source = memory.room(bytes * most * down.block)
  const blocks = down.block === 1 ? source : memory.room(bytes * most)
  const row = memory.room(CHANNELS * across.blocks * across.block)
  const line = memory.room(CHANNELS * (across.blocks + 2 * MARGIN))
  const copy = memory.room(made * ROWS)
  const places = memory.room(Int32Array.BYTES_PER_ELEMENT * down.taps)
  const weightsDown = memory.put(down.weights)
  const starts = memory.put(across.starts.map((start) => start + MARGIN))
  const weights = memory.put(across.weights)
  const rowOf = new Int32Array(down.taps)
  for (const { from, end, first, last } of strips) {
    const top = first * down.block
    const count = last + 1 - first
    const rows = Math.min(height - top, count * down.block)
    memory.fill(source, data.subarray(bytes * top, bytes * (top + rows)))
    for (let k = rows; k < count * down.block; k++)
      memory.fill(source + bytes * k, data.subarray(bytes * (height - 1), bytes * height))
    if (down.block > 1) kernels.meanRows(source, bytes, count, down.block, shareOf(down), blocks)
    for (let y = from; y < end; y++) {
      const own = down.weights.subarray(down.taps * y, down.taps * (y + 1))
      // Rows without weight are left out, but for one that makes a pair.
      const skipped = own.findIndex(isSome)
      const taps = 2 * Math.ceil((own.findLastIndex(isSome) + 1 - skipped) / 2)
      for (let tap = 0; tap < taps; tap++)
        rowOf[tap] = blocks + bytes * (within((down.starts[y] as number) + skipped + tap, down) - first)
      memory.fill(places, rowOf)
      const at = Int16Array.BYTES_PER_ELEMENT * (down.taps * y + skipped)
      kernels.weighRows(places, weightsDown + at, taps, bytes, row)
      kernels.layOut(row, width, across.block, shareOf(across), across.blocks, MARGIN, line)
      kernels.weighPixels(line, starts, weights, across.taps, across.length, copy + made * (y - from))
    }
    out.set(memory.bytes(copy, made * (end - from)), made * from)
  }
}

/** Rows of the copy, and the blocks of rows that they are made of. */
interface Strip {
  readonly from: number
  readonly end: number
  readonly first: number
  readonly last: number
}

function stripsOf(down: Axis): Strip[] {
  return Array.from({ length: Math.ceil(down.length / ROWS) }, (_, i) => {
    const [from, end] = [i * ROWS, Math.min(down.length, (i + 1) * ROWS)]
    const first = within(down.starts[from] as number, down)
    const last = within((down.starts[end - 1] as number) + down.taps - 1, down)
    return { from, end, first, last }
  })
}

function isSome(weight: number): boolean {
  return weight > 0
}

/** What a sum over a block is multiplied by, 2^24ths. */
function shareOf({ block }: Axis): number {
  return Math.floor(2 ** 24 / block)
}
