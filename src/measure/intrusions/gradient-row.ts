import type { LabPlanes } from '../../color/lab.ts'
import { GRAIN } from '../../imaging/smoothing.ts'

/** Share by which rounding may move a sum of two squares. @choice a million times the rounding of a float of 64 bits */
const ROUNDING = 1e-9

/** Color gradients along one row of a picture: at each pixel that of the plane that changes fastest, ΔE per pixel. */
export class GradientRow {
  readonly dx: Float64Array
  readonly dy: Float64Array
  readonly #squares: Float64Array
  readonly #smooth: LabPlanes
  readonly #height: number
  #y = -1

  /** @param smooth the picture without its grain */
  constructor(smooth: LabPlanes, width: number, height: number) {
    this.dx = new Float64Array(width)
    this.dy = new Float64Array(width)
    this.#squares = new Float64Array(width)
    this.#smooth = smooth
    this.#height = height
  }

  readAt(y: number): void {
    if (y === this.#y) return
    this.#y = y
    this.dx.fill(0)
    this.dy.fill(0)
    this.#squares.fill(0)
    const above = Math.max(0, y - GRAIN)
    const below = Math.min(this.#height - 1, y + GRAIN)
    const { L, a, b } = this.#smooth
    for (const plane of [L, a, b]) this.#keepSteeper(plane, y, above, below)
  }

  #keepSteeper(plane: Float32Array, y: number, above: number, below: number): void {
    const { dx, dy } = this
    const squares = this.#squares
    const width = dx.length
    const row = y * width
    for (let x = 0; x < width; x++) {
      const left = Math.max(0, x - GRAIN)
      const right = Math.min(width - 1, x + GRAIN)
      const across = ((plane[row + right] as number) - (plane[row + left] as number)) / (right - left)
      const along =
        ((plane[below * width + x] as number) - (plane[above * width + x] as number)) / (below - above)
      const square = across * across + along * along
      if (square > (squares[x] as number)) {
        dx[x] = across
        dy[x] = along
        squares[x] = square
      }
    }
  }

  magnitudeAt(x: number): number {
    return Math.hypot(this.dx[x] as number, this.dy[x] as number)
  }

  /** Whether the magnitude is below a limit; without its root, which takes long, where that is certain. */
  isBelow(x: number, limit: number): boolean {
    const square = this.#squares[x] as number
    if (square < limit * limit * (1 - ROUNDING)) return true
    return square <= limit * limit * (1 + ROUNDING) && this.magnitudeAt(x) < limit
  }
}
