import type { Cloth } from './cloth.ts'
import { mix } from './color.ts'
import { moved, onSide, type Point, smooth } from './path.ts'
import { blurred, bothSides, crisp, fill, line } from './scene.ts'

/** Two wings of a shirt collar, open at the throat, and the front's edge below. */
export function collar({ color, light, dark }: Cloth): string {
  const inner: Point[] = [
    [1, 233],
    [20, 212],
    [40, 188],
    [54, 166],
    [57, 148],
  ]
  const outer: Point[] = [
    [57, 148],
    [64, 153],
    [70, 166],
    [73, 184],
    [66, 207],
    [55, 228],
    [44, 251],
  ]
  const wing = (side: number, x = 0, y = 0): string => {
    const at = (points: readonly Point[]): string => smooth(moved(onSide(points, side), side * x, y))
    return `${at(inner)}${at(outer).replace('M', 'L')}Z`
  }
  const shadow = blurred(
    2,
    bothSides((side) => line(wing(side, 1, 4), dark, 3, 0.6)),
  )
  return [
    `<g clip-path="url(#torso)">${shadow}<path d="M-2 228L2 228L4 1200L-4 1200Z" fill="#000" fill-opacity="0.05"/></g>`,
    crisp(
      bothSides((side) => fill(wing(side), mix(color, light, 0.45))),
      bothSides((side) => line(wing(side), dark, 0.8, 0.6)),
    ),
  ].join('')
}

/** The stitched edge of a V-neck, `depth` mm below the eyes. */
export function vNeck({ light, dark }: Cloth, depth: number): string {
  const edge: Point[] = [
    [62, 158],
    [44, 178],
    [17, depth - 22],
    [0, depth],
  ]
  return [
    blurred(
      1,
      bothSides((side) => line(smooth(onSide(moved(edge, 5, 5), side)), dark, 1.1, 0.7)),
    ),
    crisp(bothSides((side) => line(smooth(onSide(edge, side)), light, 2, 0.6))),
  ].join('')
}

/** The knitted ring of a pullover's neck. */
export function crewNeck({ color, light, dark }: Cloth): string {
  const ring: Point[] = [
    [-63, 152],
    [-52, 174],
    [-30, 190],
    [0, 196],
    [30, 190],
    [52, 174],
    [63, 152],
  ]
  return [
    crisp(line(smooth(moved(ring, 0, 4)), color, 15)),
    blurred(
      1,
      line(smooth(moved(ring, 0, 12)), dark, 1.6, 0.7),
      line(smooth(moved(ring, 0, -2)), light, 1.4, 0.5),
    ),
  ].join('')
}
