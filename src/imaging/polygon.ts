/** A closed outline in pixels of a picture: x to the right, y down, pixel centers at halves. */
export type Outline = readonly (readonly [x: number, y: number])[]

/**
 * Indexes (y * width + x), row by row, of the pixels whose centers lie inside an outline and inside a picture of this
 * size. Where the outline crosses itself, what it encloses twice is outside (even-odd rule).
 */
export function pixelsInside(outline: Outline, width: number, height: number): Int32Array {
  const runs = runsInside(outline, width, height)
  const inside = new Int32Array(countOf(runs))
  let count = 0
  for (let k = 0; k < runs.length; k += 2) {
    const to = runs[k + 1] as number
    for (let i = runs[k] as number; i < to; i++) inside[count++] = i
  }
  return inside
}

/** How many pixels some runs hold. */
function countOf(runs: readonly number[]): number {
  let count = 0
  for (let k = 0; k < runs.length; k += 2) count += (runs[k + 1] as number) - (runs[k] as number)
  return count
}

/** The same pixels as runs along the rows: the first index of each and the one after its last, one behind the other. */
export function runsInside(outline: Outline, width: number, height: number): number[] {
  const ys = outline.map(([, y]) => y)
  const first = Math.max(0, Math.floor(Math.min(...ys)))
  const last = Math.min(height - 1, Math.ceil(Math.max(...ys)))
  const { crossings, counts } = crossingsOf(outline, first, last)
  const runs: number[] = []
  for (let y = first, start = 0; y <= last; y++, start += outline.length) {
    const end = start + (counts[y - first] as number)
    for (let i = start; i + 1 < end; i += 2) {
      const from = Math.max(0, Math.ceil((crossings[i] as number) - 0.5))
      const to = Math.min(width, Math.ceil((crossings[i + 1] as number) - 0.5))
      if (from < to) runs.push(y * width + from, y * width + to)
    }
  }
  return runs
}

/** About `most` of the pixels of some runs, one of so many. @param runs as {@link runsInside} tells them */
export function sampleOf(runs: readonly number[], most: number): Int32Array {
  const count = countOf(runs)
  const step = Math.max(1, Math.ceil(count / most))
  return ranked(runs, step, Math.ceil(count / step))
}

/** `most` of the pixels of some runs, evenly; all when they are fewer. @param runs as {@link runsInside} tells them */
export function thinnedRuns(runs: readonly number[], most: number): Int32Array {
  const count = countOf(runs)
  const step = Math.max(1, count / most)
  return ranked(runs, step, Math.floor(count / step))
}

/** So many pixels of some runs: those of the ranks 0, step, 2 x step and so on, rounded down. */
function ranked(runs: readonly number[], step: number, count: number): Int32Array {
  const pixels = new Int32Array(count)
  // The rank of the first pixel of a run.
  let rank = 0
  for (let k = 0, n = 0; n < count; k += 2) {
    const from = (runs[k] as number) - rank
    rank += (runs[k + 1] as number) - (runs[k] as number)
    for (let next = Math.floor(n * step); next < rank && n < count; next = Math.floor(++n * step))
      pixels[n] = from + next
  }
  return pixels
}

/** One of so many pixels of each run, from its first. @param runs as {@link runsInside} tells them */
export function everyNthOf(runs: readonly number[], every: number): Int32Array {
  const pixels = new Int32Array(Math.ceil(countOf(runs) / every) + runs.length / 2)
  let count = 0
  for (let k = 0; k < runs.length; k += 2) {
    const to = runs[k + 1] as number
    for (let i = runs[k] as number; i < to; i += every) pixels[count++] = i
  }
  return pixels.subarray(0, count)
}

/**
 * Where the outline crosses the middle of each row, from left to right: of each row as many places as the outline has corners,
 * and how many of them are taken.
 */
function crossingsOf(outline: Outline, first: number, last: number) {
  const counts = new Int32Array(Math.max(0, last - first + 1))
  const crossings = new Float64Array(counts.length * outline.length)
  let [fromX, fromY] = outline.at(-1) ?? [0, 0]
  for (const [toX, toY] of outline) {
    const top = Math.max(first, Math.floor(Math.min(fromY, toY)))
    const bottom = Math.min(last, Math.ceil(Math.max(fromY, toY)))
    for (let y = top; y <= bottom; y++) {
      const middle = y + 0.5
      if (fromY <= middle === toY <= middle) continue
      const start = (y - first) * outline.length
      const count = counts[y - first] as number
      const x = fromX + ((middle - fromY) / (toY - fromY)) * (toX - fromX)
      let at = start + count
      for (; at > start && (crossings[at - 1] as number) > x; at--)
        crossings[at] = crossings[at - 1] as number
      crossings[at] = x
      counts[y - first] = count + 1
    }
    fromX = toX
    fromY = toY
  }
  return { crossings, counts }
}
