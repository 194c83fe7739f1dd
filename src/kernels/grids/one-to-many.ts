import { type Memory, ownKernels } from '../memory.ts'

/** Holds a list of numbers against each of those from `first` on; results stand at their places. */
export type HeldAgainst<L> = (one: L, first: number) => Float32Array

/**
 * Correlation of the cells that both have, 0..1023, where 0 stands for none; 0 where there are hardly any. Exact but for rounding to single
 * precision.
 * Lists are as if filled up with 0 to the longest of the many.
 */
export function correlationsWith(many: readonly Int16Array[]): HeldAgainst<Int16Array> {
  return heldAgainst(many, 'correlations', (length) => new Int16Array(length), CELLS)
}

/** Inner product, in single precision. Lists are as if filled up with 0 to the longest of the many. */
export function innerProductsWith(many: readonly Float32Array[]): HeldAgainst<Float32Array> {
  return heldAgainst(many, 'innerProducts', (length) => new Float32Array(length), VALUES)
}

/** How many go into a vector. */
const [CELLS, VALUES] = [8, 4]

type List = Int16Array | Float32Array

function heldAgainst<L extends List>(
  many: readonly L[],
  kernel: 'correlations' | 'innerProducts',
  listOf: (length: number) => L & Parameters<Memory['put']>[0],
  lanes: number,
): HeldAgainst<L> {
  const { kernels, memory } = ownKernels()
  const most = many.reduce((length, list) => Math.max(length, list.length), 0)
  const length = Math.ceil(most / lanes) * lanes
  const filled = listOf(length)
  const all = listOf(length * many.length)
  for (const [k, list] of many.entries()) all.set(list, k * length)
  const float = Float32Array.BYTES_PER_ELEMENT
  const [lists, out, at] = [memory.put(all), memory.room(float * many.length), memory.put(filled)]
  return (one, first) => {
    filled.fill(0)
    filled.set(one.subarray(0, length))
    memory.fill(at, filled)
    const from = lists + first * length * all.BYTES_PER_ELEMENT
    kernels[kernel](at, from, many.length - first, length, out + float * first)
    return memory.floats(out, many.length)
  }
}
