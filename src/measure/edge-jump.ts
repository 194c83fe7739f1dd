import type { LabPlanes } from '../color/lab.ts'
import type { FrameLine } from './frame-line.ts'

/** The color jump across a piece of a line: from the inner to the outer side, in CIELAB, gradients taken off. */
export interface Jump {
  readonly L: number
  readonly a: number
  readonly b: number
  /** Middle of the piece, as a position along the line. */
  readonly along: number
}

// Bands on both sides of the line, in pixels at working size: what lies nearer may be the edge's own blur.
const NEAR = 3
const FAR = 9
// With fewer samples across than this, a band has a mean but no slope of its own.
const SLOPED = 5

/** Length of the pieces that a line is read in, in pixels. */
export const PIECE = 12

export interface Ground {
  readonly lab: LabPlanes
  readonly width: number
  readonly height: number
}

/**
 * The jump in the piece of the line around `along`. Each side is averaged over the piece; the slope that both sides
 * share is taken off, so that a fall-off of light or a soft shadow is no jump. Null where a side has no pixels.
 * @param shift moves the line towards its inner side, in pixels
 */
export function jumpAt(
  { lab, width, height }: Ground,
  line: FrameLine,
  along: number,
  shift = 0,
): Jump | null {
  const inner = new Band()
  const outer = new Band()
  for (let step = -PIECE / 2; step < PIECE / 2; step++) {
    for (let away = NEAR; away <= FAR; away++) {
      const t = along + step
      inner.add(lab, indexAt(line, t, shift + away, width, height), away)
      outer.add(lab, indexAt(line, t, shift - away, width, height), -away)
    }
  }
  if (inner.empty || outer.empty) return null
  const across = outer.middle - inner.middle
  const off = (plane: 'L' | 'a' | 'b') => {
    const slopes = [inner, outer].filter((band) => band.sloped).map((band) => band.slope(plane))
    const slope = slopes.length > 0 ? slopes.reduce((sum, each) => sum + each, 0) / slopes.length : 0
    return outer.mean(plane) - inner.mean(plane) - slope * across
  }
  return { L: off('L'), a: off('a'), b: off('b'), along }
}

/** Index of the pixel at a position along the line and a distance towards its inner side; -1 outside the frame. */
export function indexAt(
  line: FrameLine,
  along: number,
  inward: number,
  width: number,
  height: number,
): number {
  const x = Math.floor(line.x + along * line.dx + inward * line.nx)
  const y = Math.floor(line.y + along * line.dy + inward * line.ny)
  return x < 0 || y < 0 || x >= width || y >= height ? -1 : y * width + x
}

/** Running sums over one side of a line, for the mean and the slope of each plane across it. */
class Band {
  #n = 0
  #d = 0
  #dd = 0
  readonly #sum = { L: 0, a: 0, b: 0 }
  readonly #cross = { L: 0, a: 0, b: 0 }
  readonly #distances = new Set<number>()

  add(lab: LabPlanes, index: number, distance: number): void {
    if (index < 0) return
    this.#n++
    this.#d += distance
    this.#dd += distance * distance
    this.#distances.add(distance)
    for (const plane of ['L', 'a', 'b'] as const) {
      const value = lab[plane][index] as number
      this.#sum[plane] += value
      this.#cross[plane] += value * distance
    }
  }

  get empty(): boolean {
    return this.#n === 0
  }

  get middle(): number {
    return this.#d / this.#n
  }

  get sloped(): boolean {
    return this.#distances.size >= SLOPED
  }

  mean(plane: 'L' | 'a' | 'b'): number {
    return this.#sum[plane] / this.#n
  }

  /** Least squares slope across the line, per pixel. */
  slope(plane: 'L' | 'a' | 'b'): number {
    const spread = this.#dd - (this.#d * this.#d) / this.#n
    return spread > 0 ? (this.#cross[plane] - (this.#d * this.#sum[plane]) / this.#n) / spread : 0
  }
}
