import type { Lab } from '../../color/lab.ts'
import type { LabPicture } from '../../imaging/lab-picture.ts'
import type { Backdrop } from '../backdrop/backdrop.ts'
import { indexAt, PIECE } from './edge-jump.ts'
import type { FrameLine } from './frame-line.ts'

/** How far inside a line the backdrop is looked for, px. @choice beyond the edge's own blur, before anything else begins */
const INSIDE = [4, 6, 8]
/** Every so many px along the line. @choice what hides a piece of 12 px is wider */
const STRIDE = 2
/** How far inside a line the color is read that others are held against, px. @choice as above */
const INNER = 5
/** How far behind a line its color must stay, px. @choice a pole or a strand before the backdrop is thinner */
const BEHIND = [10, 13, 16]
/**
 * Share of the jump that counts as staying.
 * @tuned on the backdrop-edge composites and negatives of docs/validation.md: all edges are found, and no others
 */
const STAYS = 0.25

/**
 * Whether a piece of a line has backdrop on its inner side; else the sitter hides the edge there.
 * @param along the middle of the piece
 * @param clear how much farther from the line it is read, px
 */
export function isBackdropInside(backdrop: Backdrop, line: FrameLine, along: number, clear: number): boolean {
  const { distance, threshold, width, height } = backdrop
  let n = 0
  let sum = 0
  for (let t = along - PIECE / 2; t < along + PIECE / 2; t += STRIDE) {
    for (const inward of INSIDE) {
      const index = indexAt(line, t, clear + inward, width, height)
      if (index < 0) continue
      n++
      sum += distance[index] as number
    }
  }
  return n > 0 && sum / n <= threshold
}

/**
 * Whether the color is still another one further behind the line, at most of the pieces.
 * @param along the middles of the pieces
 * @param jump the color's from the inner to the outer side
 * @param most share of the readings that must agree
 * @param clear how much farther from the line both sides are read, px
 */
export function staysBehind(
  picture: LabPicture,
  line: FrameLine,
  along: readonly number[],
  jump: Lab,
  most: number,
  clear: number,
): boolean {
  let [n, stays] = [0, 0]
  for (const middle of along) {
    const inner = meanBeside(picture, line, middle, INNER + clear)
    for (const depth of BEHIND) {
      const outer = meanBeside(picture, line, middle, -depth - clear)
      if (!inner || !outer) continue
      n++
      const difference = { L: outer.L - inner.L, a: outer.a - inner.a, b: outer.b - inner.b }
      if (dot(difference, jump) > STAYS * dot(jump, jump)) stays++
    }
  }
  return stays >= most * n
}

/** Mean color of a strip three pixels wide beside a piece of the line; null outside the frame. */
function meanBeside(
  { lab, width, height }: LabPicture,
  line: FrameLine,
  middle: number,
  inward: number,
): Lab | null {
  let n = 0
  let L = 0
  let a = 0
  let b = 0
  for (let t = middle - PIECE / 2; t < middle + PIECE / 2; t++) {
    for (const away of [inward - 1, inward, inward + 1]) {
      const index = indexAt(line, t, away, width, height)
      if (index < 0) continue
      n++
      L += lab.L[index] as number
      a += lab.a[index] as number
      b += lab.b[index] as number
    }
  }
  return n === 0 ? null : { L: L / n, a: a / n, b: b / n }
}

/** Product of two differences of color. */
export function dot(p: Lab, q: Lab): number {
  return p.L * q.L + p.a * q.a + p.b * q.b
}
