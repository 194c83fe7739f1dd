import type { LabPicture } from '../../imaging/lab-picture.ts'
import { GRAIN } from '../../imaging/smoothing.ts'
import { steepPixels } from '../../kernels/planes.ts'

/** How fast and in which direction color changes at a pixel, ΔE per pixel. */
export interface Gradient {
  readonly dx: number
  readonly dy: number
  readonly size: number
}

/** The gradient of the plane that changes fastest at a pixel. @param smooth the picture without its grain */
export function steepestGradient({ lab, width, height }: LabPicture, x: number, y: number): Gradient {
  const left = Math.max(0, x - GRAIN)
  const right = Math.min(width - 1, x + GRAIN)
  const above = Math.max(0, y - GRAIN)
  const below = Math.min(height - 1, y + GRAIN)
  let dx = 0
  let dy = 0
  let most = 0
  for (const plane of [lab.L, lab.a, lab.b]) {
    const across =
      ((plane[y * width + right] as number) - (plane[y * width + left] as number)) / (right - left)
    const along =
      ((plane[below * width + x] as number) - (plane[above * width + x] as number)) / (below - above)
    const square = across * across + along * along
    if (square <= most) continue
    dx = across
    dy = along
    most = square
  }
  return { dx, dy, size: Math.hypot(dx, dy) }
}

/** Share by which single precision may read a gradient too small. @choice a hundred times its rounding */
const ROUNDING = 1e-5

/** Indexes of the pixels of some rows, and hardly any others, whose steepest gradient is at least so large; the outermost columns are left out. */
export function steeperThan(
  { lab: { L, a, b }, width, height }: LabPicture,
  first: number,
  end: number,
  least: number,
): Int32Array {
  return steepPixels([L, a, b], { width, height, first, end }, GRAIN, least * (1 - ROUNDING))
}
