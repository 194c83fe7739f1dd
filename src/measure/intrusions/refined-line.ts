import type { LabPicture } from '../../imaging/lab-picture.ts'
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
  smooth: LabPicture,
  { angle, rho, line }: FoundLine,
  lineAt: (angle: number, rho: number) => FrameLine | null,
  below: number,
): FrameLine {
  let best = { line, jump: 0 }
  for (const turn of TURNS) {
    for (const shift of SHIFTS) {
      const moved = lineAt(angle + (turn * Math.PI) / 180, rho + shift)
      if (!moved) continue
      const jump = meanJump(smooth, moved, below)
      if (jump > best.jump) best = { line: moved, jump }
    }
  }
  return best.line
}

/** ΔE between both sides of the line: the length of the mean difference, so that changes of sign cancel out. */
function meanJump({ lab: { L, a, b }, width, height }: LabPicture, line: FrameLine, below: number): number {
  // One declaration each: taken from a list they would not be kept as plain numbers, which is slow.
  let n = 0
  let dL = 0
  let da = 0
  let db = 0
  const [besideX, besideY] = [APART * line.nx, APART * line.ny]
  for (let t = STRIDE; t < line.length - STRIDE; t += STRIDE) {
    const x = line.x + t * line.dx
    const y = line.y + t * line.dy
    // It begins at its upper end.
    if (y > below) break
    const inner = pixelAt(x + besideX, y + besideY, width, height)
    const outer = pixelAt(x - besideX, y - besideY, width, height)
    n++
    dL += bounded((L[outer] as number) - (L[inner] as number))
    da += bounded((a[outer] as number) - (a[inner] as number))
    db += bounded((b[outer] as number) - (b[inner] as number))
  }
  return n === 0 ? 0 : Math.hypot(dL, da, db) / n
}

function bounded(jump: number): number {
  if (jump > MOST_JUMP) return MOST_JUMP
  return Math.max(jump, -MOST_JUMP)
}

/** Index of the pixel at a place, or of the nearest one of the frame. */
function pixelAt(x: number, y: number, width: number, height: number): number {
  return nearest(y, height) * width + nearest(x, width)
}

/** The whole number below, within the frame. Bits, not `Math.floor`: of numbers that are no less than 0 it is the same, and this is most of a search. */
function nearest(at: number, size: number): number {
  if (!(at >= 0)) return 0
  return at >= size ? size - 1 : at | 0
}
