import type { Proportions } from './look.ts'
import { mirrored, type Point, smooth } from './path.ts'

/** Right half of the head's outline without hair or ears, from the crown of the skull to the chin. */
export function headHalf(shape: Proportions): Point[] {
  const half = shape.headBreadth / 2
  const { skullAboveEyes: up, chinBelowEyes: down, jaw } = shape
  return [
    [0, -up],
    [0.36 * half, -0.96 * up],
    [0.69 * half, -0.81 * up],
    [0.91 * half, -0.55 * up],
    [0.995 * half, -0.24 * up],
    [0.975 * half, 0.03 * down],
    [0.925 * half, 0.25 * down],
    [0.875 * half, 0.43 * down],
    [(0.76 + 0.07 * jaw) * half, 0.65 * down],
    [(0.56 + 0.09 * jaw) * half, 0.84 * down],
    [(0.29 + 0.1 * jaw) * half, 0.965 * down],
    [0, down],
  ]
}

export function headOutline(shape: Proportions): string {
  return smooth(mirrored(headHalf(shape)), true)
}

/** The skull's right half grown outwards by `top` mm at the crown and `side` mm at the temples; stops at the ear. */
export function grownSkull(shape: Proportions, top: number, side: number): Point[] {
  const half = shape.headBreadth / 2
  const x = (half + side) / half
  const y = (shape.skullAboveEyes + top) / shape.skullAboveEyes
  return headHalf(shape)
    .slice(0, 6)
    .map(([px, py]): Point => [px * x, py < 0 ? py * y : py])
}

/**
 * Points in percent of this head, as x, y, x, y...: x of half the head breadth, y above the eyes (negative) of the
 * skull's height over them, y below (positive) of the chin's depth under them.
 */
export function onHead(shape: Proportions, percents: readonly number[]): Point[] {
  return Array.from({ length: percents.length / 2 }, (_, index): Point => {
    const [x, y] = [percents[2 * index] ?? 0, percents[2 * index + 1] ?? 0]
    return [(x * shape.headBreadth) / 200, (y * (y < 0 ? shape.skullAboveEyes : shape.chinBelowEyes)) / 100]
  })
}
