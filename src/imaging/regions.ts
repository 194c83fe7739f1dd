/** A connected set of pixels, as indexes into its picture. */
export type Region = Int32Array

/** The connected components (4-neighbors) of the pixels that are 1, each in the order of a breadth-first search. */
export function regionsOf(mask: Uint8Array, width: number): Region[] {
  const left = mask.slice()
  const regions: Region[] = []
  // All regions, one behind the other.
  const found = new Int32Array(mask.length)
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

/**
 * Flood fill: the pixels that are 1 and connected (4-neighbors) to a seed, as a mask. Works run by run along the rows, since
 * a backdrop is most of its picture.
 * @param open where it may go, 1; what was flooded becomes 0 there
 * @param seeds indexes of pixels
 */
export function floodFill(open: Uint8Array, width: number, seeds: readonly number[]): Uint8Array {
  const mask = new Uint8Array(open.length)
  const stack: number[] = []
  for (const seed of seeds) {
    if (open[seed] !== 1) continue
    stack.push(seed)
    while (stack.length > 0) {
      const at = stack.pop() as number
      if (open[at] !== 1) continue
      const row = at - (at % width)
      let from = at
      while (from > row && open[from - 1] === 1) from--
      let to = at + 1
      while (to < row + width && open[to] === 1) to++
      mask.fill(1, from, to)
      open.fill(0, from, to)
      pushRuns(stack, open, from - width, to - width)
      pushRuns(stack, open, from + width, to + width)
    }
  }
  return mask
}

/** The first pixel of each open run between the two. */
function pushRuns(stack: number[], open: Uint8Array, from: number, to: number): void {
  if (from < 0 || to > open.length) return
  for (let i = from, inRun = false; i < to; i++) {
    const isOpen = open[i] === 1
    if (isOpen && !inRun) stack.push(i)
    inRun = isOpen
  }
}
