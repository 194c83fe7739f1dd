import { withKernels } from './memory.ts'

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
