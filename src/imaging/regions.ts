import { regions } from '../kernels/flood.ts'

/** A connected set of pixels, as indexes into its picture. */
export type Region = Int32Array

/** The connected components (4-neighbors) of the pixels that are 1, each in the order of a breadth-first search. */
export function regionsOf(mask: Uint8Array, width: number): Region[] {
  const { found, ends } = regions(mask, width)
  let start = 0
  return Array.from(ends, (end) => {
    const region = found.subarray(start, end)
    start = end
    return region
  })
}
