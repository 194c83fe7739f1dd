/** A closed outline in pixels of a picture: x to the right, y down, pixel centers at halves. */
export type Outline = readonly (readonly [x: number, y: number])[]

/**
 * Indexes (y * width + x), row by row, of the pixels whose centers lie inside an outline and inside a picture of this
 * size. Where the outline crosses itself, what it encloses twice is outside (even-odd rule).
 */
export function pixelsInside(outline: Outline, width: number, height: number): number[] {
  const ys = outline.map(([, y]) => y)
  const first = Math.max(0, Math.floor(Math.min(...ys)))
  const last = Math.min(height - 1, Math.ceil(Math.max(...ys)))
  const inside: number[] = []
  for (let y = first; y <= last; y++) {
    const crossings = crossingsAt(outline, y + 0.5)
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      const from = Math.max(0, Math.ceil((crossings[i] as number) - 0.5))
      const to = Math.min(width - 1, Math.ceil((crossings[i + 1] as number) - 0.5) - 1)
      for (let x = from; x <= to; x++) inside.push(y * width + x)
    }
  }
  return inside
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
