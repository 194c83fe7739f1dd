import type { LabPlanes } from '../color/lab.ts'
import type { Ground } from './edge-jump.ts'
import type { Pixel } from './face.ts'
import { type FrameLine, frameLine } from './frame-line.ts'
import { maskedMean } from './morphology.ts'
import { median } from './surface.ts'

/** A line as the search found it: angle of its normal in radians, distance from the middle of the frame in pixels. */
export interface FoundLine {
  readonly angle: number
  readonly rho: number
  readonly line: FrameLine
}

// Grain is averaged over squares of 2 x this + 1 pixels, and the slope is taken over twice this.
const RADIUS = 2
// Slopes that vote, in ΔE per pixel at working size: an edge of 3 L* that is blurred over 10 px reaches 0.3. In a
// grainy picture the usual slope sets the limit.
const LEAST_SLOPE = 0.15
const SLOPES = 2.5
// A strong edge has no more say than a faint one.
const MOST_SAY = 0.5
const ANGLES = 180
const RHO_STEP = 2
// The direction of a slope is good to a few degrees.
const SPREAD = 4
const CANDIDATES = 48

/**
 * Straight edges of any contrast, by voting (the Hough transform with the slope's own direction; Duda and Hart 1972,
 * Ballard 1981), each then turned and moved to where its jump is largest. The most voted for first.
 * @param border indexes of pixels that are backdrop if anything is
 * @param allowed which lines are looked for
 */
export function searchLines(
  ground: Ground,
  border: Int32Array,
  inside: Pixel,
  allowed: (line: FrameLine) => boolean,
): FoundLine[] {
  const { width, height } = ground
  const smooth = smoothed(ground)
  const votes = ballot(smooth, width, height, border)
  const reach = Math.ceil(Math.hypot(width, height) / 2 / RHO_STEP)
  const rhos = 2 * reach + 1
  const lineAt = (angle: number, rho: number) => {
    const line = frameLine(angle, rho, width, height, inside)
    return line && allowed(line) ? { angle, rho, line } : null
  }
  const candidates: { found: FoundLine; say: number }[] = []
  for (let turn = 0; turn < ANGLES; turn++) {
    for (let bin = 0; bin < rhos; bin++) {
      const say = votes[turn * rhos + bin] as number
      if (say < 4 || !isPeak(votes, turn, bin, rhos)) continue
      const found = lineAt((turn * Math.PI) / ANGLES, (bin - reach) * RHO_STEP)
      if (found) candidates.push({ found, say: say / Math.sqrt(found.line.length) })
    }
  }
  candidates.sort((p, q) => q.say - p.say)
  return candidates.slice(0, CANDIDATES).map(({ found }) => refined(smooth, ground, found, lineAt))
}

function smoothed({ lab, width, height }: Ground): LabPlanes {
  const everywhere = new Uint8Array(lab.L.length).fill(1)
  const of = (plane: Float32Array) => maskedMean(plane, everywhere, width, height, RADIUS)
  return { L: of(lab.L), a: of(lab.a), b: of(lab.b) }
}

/** Votes by angle (row) and rho (column). */
function ballot(smooth: LabPlanes, width: number, height: number, border: Int32Array): Float32Array {
  const reach = Math.ceil(Math.hypot(width, height) / 2 / RHO_STEP)
  const rhos = 2 * reach + 1
  const votes = new Float32Array(ANGLES * rhos)
  const usual = median(
    Float32Array.from(border, (i) => {
      const { dx, dy } = slopeAt(smooth, i % width, Math.floor(i / width), width, height)
      return Math.hypot(dx, dy)
    }),
  )
  const least = Math.max(LEAST_SLOPE, SLOPES * usual)
  const cosines = Float64Array.from({ length: ANGLES }, (_, turn) => Math.cos((turn * Math.PI) / ANGLES))
  const sines = Float64Array.from({ length: ANGLES }, (_, turn) => Math.sin((turn * Math.PI) / ANGLES))
  for (let y = 1; y < height - 1; y++) {
    for (let x = 1; x < width - 1; x++) {
      const { dx, dy } = slopeAt(smooth, x, y, width, height)
      const slope = Math.hypot(dx, dy)
      if (slope < least) continue
      const turn = Math.round((Math.atan2(dy, dx) * ANGLES) / Math.PI)
      for (let near = turn - SPREAD; near <= turn + SPREAD; near++) {
        const row = ((near % ANGLES) + ANGLES) % ANGLES
        const rho =
          (x + 0.5 - width / 2) * (cosines[row] as number) + (y + 0.5 - height / 2) * (sines[row] as number)
        const at = row * rhos + Math.round(rho / RHO_STEP) + reach
        votes[at] = (votes[at] as number) + Math.min(MOST_SAY, slope)
      }
    }
  }
  return votes
}

/** Slope of the plane that changes fastest, in ΔE per pixel. */
function slopeAt(
  smooth: LabPlanes,
  x: number,
  y: number,
  width: number,
  height: number,
): { dx: number; dy: number } {
  const [left, right] = [Math.max(0, x - RADIUS), Math.min(width - 1, x + RADIUS)]
  const [above, below] = [Math.max(0, y - RADIUS), Math.min(height - 1, y + RADIUS)]
  let best = { dx: 0, dy: 0 }
  for (const plane of [smooth.L, smooth.a, smooth.b]) {
    const at = (column: number, row: number) => plane[row * width + column] as number
    const dx = (at(right, y) - at(left, y)) / (right - left)
    const dy = (at(x, below) - at(x, above)) / (below - above)
    if (dx * dx + dy * dy > best.dx * best.dx + best.dy * best.dy) best = { dx, dy }
  }
  return best
}

function isPeak(votes: Float32Array, turn: number, bin: number, rhos: number): boolean {
  const say = votes[turn * rhos + bin] as number
  for (let da = -2; da <= 2; da++) {
    for (let dr = -2; dr <= 2; dr++) {
      const around = turn + da
      const wrapped = around < 0 || around >= ANGLES
      const row = ((around % ANGLES) + ANGLES) % ANGLES
      // A normal turned by 180 degrees is the same line with the sign of rho changed.
      const column = wrapped ? rhos - 1 - (bin + dr) : bin + dr
      if (column < 0 || column >= rhos) continue
      const other = votes[row * rhos + column] as number
      if (other > say || (other === say && (da < 0 || (da === 0 && dr < 0)))) return false
    }
  }
  return true
}

const FINE_TURNS = [-1.5, -1, -0.5, 0, 0.5, 1, 1.5]
const FINE_SHIFTS = [-4, -3, -2, -1, 0, 1, 2, 3, 4]
// The jump is read this far to either side, and every so many pixels along.
const APART = 3
const STRIDE = 3

function refined(
  smooth: LabPlanes,
  { width, height }: Ground,
  found: FoundLine,
  lineAt: (angle: number, rho: number) => FoundLine | null,
): FoundLine {
  let best = { found, jump: 0 }
  for (const turn of FINE_TURNS) {
    for (const shift of FINE_SHIFTS) {
      const moved = lineAt(found.angle + (turn * Math.PI) / 180, found.rho + shift)
      if (!moved) continue
      const jump = meanJump(smooth, width, height, moved.line)
      if (jump > best.jump) best = { found: moved, jump }
    }
  }
  return best.found
}

/** ΔE between both sides, averaged as a color difference along the line; a piece counts for no more than 10 ΔE. */
function meanJump(smooth: LabPlanes, width: number, height: number, line: FrameLine): number {
  let [n, dL, da, db] = [0, 0, 0, 0]
  for (let t = STRIDE; t < line.length - STRIDE; t += STRIDE) {
    const x = line.x + t * line.dx
    const y = line.y + t * line.dy
    const inner = pixel(x + APART * line.nx, y + APART * line.ny, width, height)
    const outer = pixel(x - APART * line.nx, y - APART * line.ny, width, height)
    n++
    dL += bounded((smooth.L[outer] as number) - (smooth.L[inner] as number))
    da += bounded((smooth.a[outer] as number) - (smooth.a[inner] as number))
    db += bounded((smooth.b[outer] as number) - (smooth.b[inner] as number))
  }
  return n === 0 ? 0 : Math.hypot(dL, da, db) / n
}

function bounded(value: number): number {
  return Math.min(10, Math.max(-10, value))
}

/** The pixel at a place, or the nearest one of the frame. */
function pixel(x: number, y: number, width: number, height: number): number {
  const column = Math.min(width - 1, Math.max(0, Math.floor(x)))
  return Math.min(height - 1, Math.max(0, Math.floor(y))) * width + column
}
