import { JUMP, jumpsAcross, type LaidPlanes } from '../../kernels/edges.ts'
import type { FrameLine } from './frame-line.ts'

/** A line with the angle of its normal in radians and its distance from the middle of the frame, px. */
export interface FoundLine {
  readonly angle: number
  readonly rho: number
  readonly line: FrameLine
}

/** Turns that are tried, degrees. @choice to either side of a bin of 1 degree and of its neighbors */
const TURNS = [-1.5, -1, -0.5, 0, 0.5, 1, 1.5]
/** Shifts that are tried, px. @choice to either side of a bin of 2 px and of its neighbors */
const SHIFTS = [-4, -3, -2, -1, 0, 1, 2, 3, 4]
/**
 * How far to either side of the line its jump is read, px.
 * @choice beyond the smoothing of grain, so that the sides share no pixel
 */
const APART = 3
/** The jump is read every so many pixels along. @choice the smoothed colors in between are nearly the same */
const STRIDE = 3
/**
 * Largest jump that counts at one place, in each of L*, a* and b*.
 * @choice a short strong edge must not outweigh a long faint one
 */
const MOST_JUMP = 10

/**
 * The line turned and moved a little to where the color jumps most, by trying all combinations.
 * @param lineAt the line of an angle and distance; null where none is wanted
 * @param below rows from this one on don't count
 */
export function refinedLine(
  smooth: LaidPlanes,
  { angle, rho, line }: FoundLine,
  lineAt: (angle: number, rho: number) => FrameLine | null,
  below: number,
): FrameLine {
  const lines: FrameLine[] = []
  for (const turn of TURNS) {
    for (const shift of SHIFTS) {
      const moved = lineAt(angle + (turn * Math.PI) / 180, rho + shift)
      if (moved) lines.push(moved)
    }
  }
  const jumps = jumpsAcross(smooth, lines, { apart: APART, stride: STRIDE, most: MOST_JUMP, below })
  let best = line
  let most = 0
  for (let k = 0, at = 0; k < lines.length; k++, at += JUMP) {
    const n = jumps[at] as number
    // The length of the mean difference, so that changes of sign cancel out.
    const sum = Math.hypot(jumps[at + 1] as number, jumps[at + 2] as number, jumps[at + 3] as number)
    if (n === 0 || sum / n <= most) continue
    most = sum / n
    best = lines[k] as FrameLine
  }
  return best
}
