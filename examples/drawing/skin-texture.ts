import { HALF_PUPIL_DISTANCE } from './eyes.ts'
import type { Look } from './look.ts'
import { seededRandom } from './random.ts'
import type { Stand } from './sitter-svg.ts'

/** Width of a cell of the pattern, mm, and its cells along an edge, after which it repeats. */
const CELL = 0.3
const CELLS = 256

/** Half the width and height of what is kept smooth around each eye, mm: lids and irises have a pattern of their own. */
const EYE = { across: 22, down: 13 }

/**
 * Fine light and dark of the skin, 0.5 to 3 mm wide: what the light at a pixel is multiplied by. It lies on the face alone, and fades out towards
 * its outline.
 * @param contrast standard deviation, share of the light
 */
export function skinTexture(
  contrast: number,
  { proportions, seed }: Look,
  stand: Stand,
): (x: number, y: number) => number {
  if (contrast === 0) return () => 1
  const pattern = patternOf(seed)
  const turn = (stand.tiltDeg * Math.PI) / 180
  const [cos, sin] = [Math.cos(turn) / stand.scale, Math.sin(turn) / stand.scale]
  const [top, bottom] = [-0.8 * proportions.skullAboveEyes, proportions.chinBelowEyes]
  const [middle, halfHeight, halfWidth] = [
    (top + bottom) / 2,
    (bottom - top) / 2,
    proportions.headBreadth / 2,
  ]
  return (x, y) => {
    const across = (x - stand.x) * cos + (y - stand.y) * sin
    const down = (y - stand.y) * cos - (x - stand.x) * sin
    const out = Math.hypot(across / halfWidth, (down - middle) / halfHeight)
    if (out >= 1) return 1
    const fromEye = Math.hypot((Math.abs(across) - HALF_PUPIL_DISTANCE) / EYE.across, down / EYE.down)
    const share = Math.min(1, 6 * (1 - out), 3 * Math.max(0, fromEye - 1))
    return share === 0 ? 1 : 1 + contrast * share * sampled(pattern, across / CELL, down / CELL)
  }
}

/** White noise less what is finer and what is coarser, of standard deviation 1. */
function patternOf(seed: number): Float32Array {
  const random = seededRandom(seed ^ 0x5c1)
  const noise = Float32Array.from({ length: CELLS ** 2 }, () => random.next() - 0.5)
  const fine = smoothed(noise, 1)
  const coarse = smoothed(smoothed(fine, 3), 3)
  const band = fine.map((value, i) => value - (coarse[i] as number))
  const size = Math.sqrt(band.reduce((sum, value) => sum + value ** 2, 0) / band.length)
  return band.map((value) => value / size)
}

/** The mean over squares of 2 x `reach` + 1 cells; the edges meet. */
function smoothed(cells: Float32Array, reach: number): Float32Array {
  return [1, CELLS].reduce<Float32Array>((from, step) => {
    const across = step === 1
    return from.map((_, i) => {
      const [row, column] = [Math.floor(i / CELLS), i % CELLS]
      let sum = 0
      for (let d = -reach; d <= reach; d++)
        sum += from[across ? row * CELLS + wrapped(column + d) : wrapped(row + d) * CELLS + column] as number
      return sum / (2 * reach + 1)
    })
  }, cells)
}

function wrapped(cell: number): number {
  return (cell + CELLS) % CELLS
}

/** Between the four cells around a place. */
function sampled(pattern: Float32Array, x: number, y: number): number {
  const [left, top] = [Math.floor(x), Math.floor(y)]
  const [right, below] = [x - left, y - top]
  const at = (column: number, row: number) =>
    pattern[(row & (CELLS - 1)) * CELLS + (column & (CELLS - 1))] as number
  const upper = at(left, top) * (1 - right) + at(left + 1, top) * right
  const lower = at(left, top + 1) * (1 - right) + at(left + 1, top + 1) * right
  return upper * (1 - below) + lower * below
}
