import { type Axis, axisOf, within } from './axis.ts'
import { CHANNELS, type Kernels, type Memory, type Picture } from './memory.ts'
import { bufferFor } from './recycling.ts'
import { withKernels } from './with-kernels.ts'

/** A picture made smaller. */
export type Copy = Picture & { readonly data: Buffer }

/** Rows of the picture that are put before the kernels at a time, at least. @choice they fit into a processor's second cache */
const ROWS = 64

/** Pixels laid beyond both ends of a row: more than neighbors ever reach. */
const MARGIN = 16

/**
 * Copies made smaller by factors of more than 1 along both axes: means of whole blocks as far as a factor of 2 at least is left, then a triangle as wide
 * as what is left. To the last bit as the picture library makes them with `fit: 'inside'` and `kernel: 'linear'`, in less than half of its time.
 * @source libvips 8.18: `vips_resize` with a gap of 2, `vips_shrink` and `vips_reduce`.
 */
export function shrunk(picture: Picture, factors: readonly number[]): Copy[] {
  const copies: CopyInWork[] = []
  withKernels((kernels, memory) => {
    for (const factor of factors) copies.push(begun(memory, picture, factor))
    writeCopies(kernels, memory, picture, copies)
  })
  return copies.map(({ data, across, down }) => ({ data, width: across.length, height: down.length }))
}

/** A copy of which the first `made` rows are made, and where its kernels find what they need. */
interface CopyInWork {
  readonly across: Axis
  readonly down: Axis
  readonly data: Buffer
  readonly places: { readonly down: number; readonly across: number }
  readonly weights: { readonly down: number; readonly across: number }
  /** Room for a row of means of blocks down, for one of both, and for the rows that are made at a time. */
  readonly row: number
  readonly line: number
  readonly out: number
  made: number
}

function begun(memory: Memory, { width, height }: Picture, factor: number): CopyInWork {
  const [across, down] = [axisOf(width, factor), axisOf(height, factor)]
  const bytes = CHANNELS * across.length * down.length
  return {
    across,
    down,
    data: Buffer.from(bufferFor(bytes), 0, bytes),
    places: {
      down: memory.put(down.starts),
      across: memory.put(across.starts.map((start) => start + MARGIN)),
    },
    weights: { down: memory.put(down.weights), across: memory.put(across.weights) },
    row: memory.room(CHANNELS * across.blocks * across.block),
    line: memory.room(CHANNELS * (across.blocks + 2 * MARGIN)),
    out: memory.room(CHANNELS * across.length * ROWS),
    made: 0,
  }
}

/** Makes all copies of one part of the picture after the other: most of the time of a copy is taken by fetching its pixels. */
function writeCopies(
  kernels: Kernels,
  memory: Memory,
  { data, width, height }: Picture,
  copies: readonly CopyInWork[],
): void {
  const bytes = CHANNELS * width
  // What one row of a copy is made of must be there as a whole.
  const rows = Math.max(ROWS, ...copies.map(({ down }) => (down.taps + 1) * down.block))
  const longest = Math.max(...copies.map(({ down }) => down.block))
  const source = memory.room(bytes * (rows + longest))
  const means = memory.room(bytes * rows)
  let left = [...copies]
  while (left.length > 0) {
    const top = Math.min(...left.map(firstRow))
    const end = Math.min(height, top + rows)
    memory.fill(source, data.subarray(bytes * top, bytes * end))
    if (end === height)
      for (let k = 0; k < longest; k++)
        memory.fill(source + bytes * (end - top + k), data.subarray(bytes * (height - 1), bytes * height))
    for (const copy of left) writeRows(kernels, memory, copy, { source, width, top, end, height, means })
    left = left.filter(({ made, down }) => made < down.length)
  }
}

/** The first row of the picture that the next row of a copy needs. */
function firstRow({ down, made }: CopyInWork): number {
  return within(down.starts[made] as number, down) * down.block
}

/** Rows of the picture, from `top` to `end`, which lie at `source`; after the last row of all it is repeated. */
interface Rows {
  readonly source: number
  readonly width: number
  readonly top: number
  readonly end: number
  readonly height: number
  /** Room for as many. */
  readonly means: number
}

/** Makes those rows of a copy of which all is there. */
function writeRows(
  kernels: Kernels,
  memory: Memory,
  copy: CopyInWork,
  { source, width, top, end, height, means }: Rows,
): void {
  const { across, down, places, weights, row, line, out, made } = copy
  const bytes = CHANNELS * width
  const first = firstRow(copy) / down.block
  const there = end === height ? down.blocks : Math.floor(end / down.block)
  const most = Math.min(down.length, made + ROWS)
  let to = made
  while (to < most && within((down.starts[to] as number) + down.taps - 1, down) < there) to++
  const from = source + bytes * (first * down.block - top)
  if (down.block > 1) kernels.meanRows(from, bytes, there - first, down.block, shareOf(down), means)
  kernels.shrinkRows(
    ...[
      down.block > 1 ? means : from,
      bytes,
      first,
      down.blocks,
      made,
      to,
      places.down,
      weights.down,
      down.taps,
    ],
    ...[row, width, across.block, shareOf(across), across.blocks, MARGIN, line],
    ...[places.across, weights.across, across.taps, across.length, out],
  )
  const size = CHANNELS * across.length
  copy.data.set(memory.seen(out, size * (to - made)), size * made)
  copy.made = to
}

/** What a sum over a block is multiplied by, 2^24ths. */
function shareOf({ block }: Axis): number {
  return Math.floor(2 ** 24 / block)
}
