import { byCodePoint } from '../text/code-points.ts'
import type { FrameReport } from './frame-report.ts'

const STANDING = ['pass', 'unsure', 'fail'] as const

/** How many things are wrong with a frame, or have to be looked at, but for warnings. */
function missesOf({ scene, rooms, verdict }: FrameReport): number {
  if (verdict === 'pass') return 0
  return [...scene.filter(({ advisory }) => !advisory), ...rooms].filter((one) => one.verdict === verdict)
    .length
}

/**
 * Frames, the best first: usable ones before those to be looked at and those that fail; of each kind the ones with fewest things wrong,
 * then those that are farthest inside of their limits, or nearest to them.
 */
export function bestFirst<F extends FrameReport>(frames: readonly F[]): F[] {
  const margin = ({ nearest }: F) => nearest?.marginPct ?? 100
  return frames.toSorted(
    (a, b) =>
      STANDING.indexOf(a.verdict) - STANDING.indexOf(b.verdict) ||
      missesOf(a) - missesOf(b) ||
      margin(b) - margin(a) ||
      byCodePoint(a.file, b.file),
  )
}
