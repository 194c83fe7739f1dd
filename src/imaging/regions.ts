import { countOf } from '../kernels/masks.ts'

/** A connected set of pixels, as indexes into its picture. */
export type Region = Int32Array

/** The connected components (4-neighbors) of the pixels that are 1, each in the order of a breadth-first search. */
export function regionsOf(mask: Uint8Array, width: number): Region[] {
  const left = mask.slice()
  const regions: Region[] = []
  // All regions, one behind the other.
  const found = new Int32Array(countOf(mask))
  let end = 0
  const visit = (i: number) => {
    if (left[i] !== 1) return
    left[i] = 0
    found[end++] = i
  }
  for (let start = left.indexOf(1); start >= 0; start = left.indexOf(1, start)) {
    const first = end
    visit(start)
    for (let next = first; next < end; next++) {
      const i = found[next] as number
      const x = i % width
      if (x > 0) visit(i - 1)
      if (x < width - 1) visit(i + 1)
      visit(i - width)
      visit(i + width)
    }
    regions.push(found.subarray(first, end))
  }
  return regions
}
