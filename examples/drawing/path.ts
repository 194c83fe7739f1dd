/** A point in drawing millimeters: origin between the eyes, x to the right of the frame, y down. */
export type Point = readonly [x: number, y: number]

/** A number short enough for SVG and precise to a hundredth of a millimeter. */
export function mm(value: number): string {
  return String(Math.round(value * 100) / 100)
}

/** Mirrors the right half of a shape, given from the top of the axis to its foot, into a closed outline. */
export function mirrored(half: readonly Point[]): Point[] {
  return [...half, ...onSide(half.slice(1, -1), -1).reverse()]
}

export function lerp(from: Point, to: Point, share: number): Point {
  return [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]
}

/** A smooth curve (Catmull-Rom) through all points, open or closed, as SVG path data. */
export function smooth(points: readonly Point[], closed = false): string {
  const count = points.length
  const at = (index: number): Point => {
    const bounded = closed ? (index + count) % count : Math.min(count - 1, Math.max(0, index))
    return points[bounded] ?? [0, 0]
  }
  const parts = [`M${mm(at(0)[0])} ${mm(at(0)[1])}`]
  for (let i = 0; i < (closed ? count : count - 1); i++) {
    const [before, from, to, after] = [at(i - 1), at(i), at(i + 1), at(i + 2)]
    const first: Point = [from[0] + (to[0] - before[0]) / 6, from[1] + (to[1] - before[1]) / 6]
    const second: Point = [to[0] - (after[0] - from[0]) / 6, to[1] - (after[1] - from[1]) / 6]
    parts.push(`C${[first, second, to].map(([x, y]) => `${mm(x)} ${mm(y)}`).join(' ')}`)
  }
  return parts.join('') + (closed ? 'Z' : '')
}

/** The point at `share` (0 to 1) of the way along a run of points, by index. */
export function along(points: readonly Point[], share: number): Point {
  const place = Math.min(1, Math.max(0, share)) * (points.length - 1)
  const index = Math.min(points.length - 2, Math.floor(place))
  return lerp(points[index] ?? [0, 0], points[index + 1] ?? [0, 0], place - index)
}

/** The same run of points with `count` points, evenly by index. */
export function resampled(points: readonly Point[], count: number): Point[] {
  return Array.from({ length: count }, (_, index) => along(points, index / (count - 1)))
}

/** The same points on the other side of the axis when `side` is -1. */
export function onSide(points: readonly Point[], side: number): Point[] {
  return points.map(([x, y]) => [side * x, y])
}

export function moved(points: readonly Point[], x: number, y: number): Point[] {
  return points.map((point) => [point[0] + x, point[1] + y])
}
