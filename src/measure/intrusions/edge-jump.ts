import type { Lab, LabPlanes } from '../../color/lab.ts'
import type { LabPicture } from '../../imaging/lab-picture.ts'
import type { FrameLine } from './frame-line.ts'

/** The color jump across a piece of a line: from the inner to the outer side, in CIELAB, gradients taken off. */
export interface Jump {
  readonly L: number
  readonly a: number
  readonly b: number
  /** Middle of the piece, as a position along the line. */
  readonly along: number
}

/** From how far beside the line it is read, px at working size. @choice what is nearer may be the edge's own blur. */
const NEAR = 3

/** To how far beside the line it is read, px at working size. @choice room for a slope, and no more than a strip of wall has; no source. */
const FAR = 9

/** Fewest samples across with which a band has a slope of its own. @choice no source: of four the noise makes a slope. */
const SLOPED = 5

/** Length of the pieces that a line is read in, px at working size. @choice a piece is covered by hair or a button whole or not at all, no source. */
export const PIECE = 12

/**
 * The jump in the piece of the line around `along`. Each side is averaged over the piece; the slope that both sides
 * share is taken off, so that a fall-off of light or a soft shadow is no jump. Null where a side has no pixels.
 * @param clear how much farther from the line both sides are read, px: what lies between them is the edge itself
 * @param shift moves the line towards its inner side, in pixels
 */
export function jumpAt(
  { lab, width, height }: LabPicture,
  line: FrameLine,
  along: number,
  clear: number,
  shift = 0,
): Jump | null {
  const inner = new Band()
  const outer = new Band()
  for (let step = -PIECE / 2; step < PIECE / 2; step++) {
    const t = along + step
    for (let away = NEAR + clear; away <= FAR + clear; away++) {
      inner.add(lab, indexAt(line, t, shift + away, width, height), away)
      outer.add(lab, indexAt(line, t, shift - away, width, height), -away)
    }
  }
  if (inner.isEmpty || outer.isEmpty) return null
  const across = outer.middle - inner.middle
  const slope = sharedSlope(inner, outer)
  return {
    L: outer.mean.L - inner.mean.L - slope.L * across,
    a: outer.mean.a - inner.mean.a - slope.a * across,
    b: outer.mean.b - inner.mean.b - slope.b * across,
    along,
  }
}

/** The mean of the slopes on both sides, of one side where only that has one, or none. */
function sharedSlope(inner: Band, outer: Band): Lab {
  if (!inner.isSloped) return outer.isSloped ? outer.slope : { L: 0, a: 0, b: 0 }
  if (!outer.isSloped) return inner.slope
  const [p, q] = [inner.slope, outer.slope]
  return { L: (p.L + q.L) / 2, a: (p.a + q.a) / 2, b: (p.b + q.b) / 2 }
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
  #L = 0
  #a = 0
  #b = 0
  #crossL = 0
  #crossA = 0
  #crossB = 0
  /** Bit n is set when there are samples n pixels away. */
  #distances = 0

  /** @param distance whole pixels, less than 32 */
  add({ L, a, b }: LabPlanes, index: number, distance: number): void {
    if (index < 0) return
    this.#n++
    this.#d += distance
    this.#dd += distance * distance
    this.#distances |= 1 << Math.abs(distance)
    const valueL = L[index] as number
    const valueA = a[index] as number
    const valueB = b[index] as number
    this.#L += valueL
    this.#a += valueA
    this.#b += valueB
    this.#crossL += valueL * distance
    this.#crossA += valueA * distance
    this.#crossB += valueB * distance
  }

  get isEmpty(): boolean {
    return this.#n === 0
  }

  get middle(): number {
    return this.#d / this.#n
  }

  get isSloped(): boolean {
    let count = 0
    for (let rest = this.#distances; rest !== 0; rest &= rest - 1) count++
    return count >= SLOPED
  }

  get mean(): Lab {
    return { L: this.#L / this.#n, a: this.#a / this.#n, b: this.#b / this.#n }
  }

  /** Least squares slope across the line, per pixel. */
  get slope(): Lab {
    const [n, d] = [this.#n, this.#d]
    const spread = this.#dd - (d * d) / n
    if (!(spread > 0)) return { L: 0, a: 0, b: 0 }
    return {
      L: (this.#crossL - (d * this.#L) / n) / spread,
      a: (this.#crossA - (d * this.#a) / n) / spread,
      b: (this.#crossB - (d * this.#b) / n) / spread,
    }
  }
}
