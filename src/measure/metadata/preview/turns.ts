/** The ways but one to lay a square grid over itself: what a viewer does to the stored picture, in words. */
export const TURNS = [
  { name: 'rotated by 90° clockwise', from: (x, y, last) => [y, last - x] },
  { name: 'rotated by 180°', from: (x, y, last) => [last - x, last - y] },
  { name: 'rotated by 90° counterclockwise', from: (x, y, last) => [last - y, x] },
  { name: 'mirrored left to right', from: (x, y, last) => [last - x, y] },
  { name: 'mirrored top to bottom', from: (x, y, last) => [x, last - y] },
  { name: 'mirrored and rotated by 90° clockwise', from: (x, y, last) => [last - y, last - x] },
  { name: 'mirrored and rotated by 90° counterclockwise', from: (x, y) => [y, x] },
] as const satisfies readonly Turn[]

interface Turn {
  readonly name: string
  /** Where the pixel at (x, y) of the turned grid comes from. */
  readonly from: (x: number, y: number, last: number) => readonly [number, number]
}

/** A square grid of `edge` pixels, turned. */
export function turned(grid: Float32Array, edge: number, { from }: Turn): Float32Array {
  return grid.map((_, i) => {
    const [x, y] = from(i % edge, Math.floor(i / edge), edge - 1)
    return grid[y * edge + x] as number
  })
}
