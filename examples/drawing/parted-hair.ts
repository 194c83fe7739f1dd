import type { Lock, Locks } from './hair-strands.ts'
import { grownSkull, onHead } from './head-outline.ts'
import type { Proportions } from './look.ts'
import { onSide, type Point, resampled } from './path.ts'

/** Hair that falls to both sides of a part. */
export interface Fall {
  /** The part, mm right of the axis. */
  readonly part: number
  /** How far the hair stands off the head, mm. */
  readonly volume: number
  /** Where it ends, in chin depths below the eyes: 0.8 at the jaw, 1.8 on the shoulders. */
  readonly fall: number
  /** Swing of its waves, mm. */
  readonly wave: number
}

/** Where guides pass on their way down, in chin depths below the eyes. */
const STEPS = [0.75, 1.1, 1.45, 1.8]

export function parted(shape: Proportions, fall: Fall): Locks {
  const silhouette = grownSkull(shape, fall.volume * 0.75, fall.volume * 0.62)
  return {
    behind: [curtain(shape, fall)],
    over: [half(shape, fall, silhouette, -1), half(shape, fall, silhouette, 1)],
    silhouette,
  }
}

function half(
  shape: Proportions,
  { part, volume, fall, wave }: Fall,
  silhouette: readonly Point[],
  sign: 1 | -1,
): Lock {
  const edge = shape.headBreadth / 2
  const down = shape.chinBelowEyes
  const inner = onHead(shape, [0, -71, 42, -65, 79, -36, 93, 2, 94.5, 42])
  const outer: Point[] = [
    ...silhouette.slice(0, 4),
    [edge + volume * 0.95, -0.1 * shape.skullAboveEyes],
    [edge + volume * 1.35, 0.4 * down],
  ]
  for (const at of STEPS.filter((step) => step <= fall)) {
    inner.push([(0.945 - 0.06 * Math.min(1, at - 0.42)) * edge, at * down])
    outer.push([edge + volume * (1.75 - 0.28 * at), at * down])
  }
  if (fall < 1) {
    inner.push([0.8 * edge, fall * down])
    outer.push([0.99 * edge, (fall + 0.08) * down])
  }
  const placed = (points: readonly Point[], shift: number): Point[] =>
    resampled(
      onSide(points, sign).map(([x, y], index): Point => [x + shift * ([1, 0.35][index] ?? 0), y]),
      8,
    )
  const [from, to] = [placed(inner, part), placed(outer, part * 0.9)]
  const drop = fall < 1 ? 4 : 13
  // Ends hang a little lower in the middle of a lock than at its edges.
  const between = (share: number, drop: number): Point[] =>
    from.map(([x, y], index): Point => {
      const [ox, oy] = to[index] ?? [x, y]
      return [x + (ox - x) * share, y + (oy - y) * share + (index === 7 ? drop : 0)]
    })
  return { guides: [from, between(0.3, drop), between(0.68, drop), to], hairs: 270, wave, sheenAt: 0.27 }
}

/** What hangs behind the neck. */
function curtain(shape: Proportions, { volume, fall }: Fall): Lock {
  const edge = shape.headBreadth / 2
  const down = shape.chinBelowEyes
  const foot = Math.min(1.35, fall * 1.04) * down
  const guides = [-1, -0.4, 0.4, 1].map((x): Point[] => [
    [x * edge, -0.5 * shape.skullAboveEyes],
    [x * (edge + volume), 0.4 * down],
    [x * (edge + volume * 0.8), foot],
  ])
  return { guides, hairs: 60, shaded: true }
}
