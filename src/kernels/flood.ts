import { withKernels } from './with-kernels.ts'

/**
 * Flood fill: the pixels that are 1 and connected (4-neighbors) to a seed, as a mask. Works run by run along the rows, since
 * a backdrop is most of its picture.
 * @param free where it may go, 1
 * @param seeds indexes of pixels
 */
export function floodFill(free: Uint8Array, width: number, seeds: readonly number[]): Uint8Array {
  const count = free.length
  return withKernels((kernels, memory) => {
    const mask = memory.zeros(count)
    const stack = memory.room(STACK * count)
    kernels.floodFill(
      memory.put(free),
      mask,
      width,
      count,
      memory.put(Int32Array.from(seeds)),
      seeds.length,
      stack,
    )
    return memory.bytes(mask, count)
  })
}

/** Bytes of stack a pixel: a run enters its two neighbors' at every other pixel at most. @choice definition: two indexes. */
const STACK = 2 * Int32Array.BYTES_PER_ELEMENT

/** The pixels of connected sets (4-neighbors) of what is 1 in a mask: one set behind the other, and where each ends. */
export function regions(mask: Uint8Array, width: number): { found: Int32Array; ends: Int32Array } {
  return withKernels((kernels, memory) => {
    const room = Int32Array.BYTES_PER_ELEMENT * mask.length
    const [found, ends] = [memory.room(room), memory.room(room)]
    const count = kernels.regions(memory.put(mask), width, mask.length, found, ends)
    const all = memory.wholes(ends, count)
    return { found: memory.wholes(found, all[count - 1] ?? 0), ends: all }
  })
}
