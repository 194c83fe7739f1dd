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
  const runs: number[] = []
  for (let y = first; y <= last; y++) {
    const crossings = crossingsAt(outline, y + 0.5)
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      const from = Math.max(0, Math.ceil((crossings[i] as number) - 0.5))
      const to = Math.min(width, Math.ceil((crossings[i + 1] as number) - 0.5))
      if (from < to) runs.push(y * width + from, y * width + to)
    }
  }
  return runs
}

/** About `most` of the pixels of some runs, evenly. @param runs as {@link runsInside} tells them */
export function sampleOf(runs: readonly number[], most: number): number[] {
  const step = Math.ceil(countOf(runs) / most)
  const pixels: number[] = []
  let passed = 0
  for (let k = 0; k < runs.length; k += 2) {
    const from = runs[k] as number
    const to = runs[k + 1] as number
    const toNext = (step - (passed % step)) % step
    for (let pixel = from + toNext; pixel < to; pixel += step) pixels.push(pixel)
    passed += to - from
  }
  return pixels
}

/** Where the outline crosses the height `y`, from left to right. */
function crossingsAt(outline: Outline, y: number): number[] {
  const crossings: number[] = []
  let [fromX, fromY] = outline.at(-1) ?? [0, 0]
  for (const [toX, toY] of outline) {
    if (fromY <= y !== toY <= y) crossings.push(fromX + ((y - fromY) / (toY - fromY)) * (toX - fromX))
    fromX = toX
    fromY = toY
  }
  return crossings.sort((a, b) => a - b)
}
