import type { LabPlanes } from '../../color/lab.ts'
import { smoothPlanes } from '../../imaging/smoothing.ts'
import { upperMedian } from '../../numbers/quantile.ts'
import type { Pixel } from '../face/face.ts'
import type { Ground } from './edge-jump.ts'
import { type FrameLine, frameLine } from './frame-line.ts'
import { SlopeRow } from './slope-row.ts'

/** Where a line may show: what lies in the rest of the frame has no say. */
export interface Sight {
  /** Rows from this one on hold no part of it that counts. */
  readonly below: number
  /** No line looked for comes nearer to the point `inside` than this, in pixels. */
  readonly clear: number
}

/** A line as the search found it: angle of its normal in radians, distance from the middle of the frame in pixels. */
export interface FoundLine {
  readonly angle: number
  readonly rho: number
  readonly line: FrameLine
}

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
// A bin's neighbours decide whether it is a peak: so far, in pixels, votes reach.
const PEAK_REACH = 4 * RHO_STEP

/**
 * Straight edges of any contrast, by voting (the Hough transform with the slope's own direction; Duda and Hart 1972,
 * Ballard 1981), each then turned and moved to where its jump is largest. The most voted for first.
 * @param border indexes of pixels that are backdrop if anything is
 * @param allowed which lines are looked for
 * @param sight where they may show
 * @param smooth the picture without its grain, where it is known already
 */
export function searchLines(
  ground: Ground,
  border: Int32Array,
  inside: Pixel,
  allowed: (line: FrameLine) => boolean,
  sight: Sight = { below: ground.height, clear: 0 },
  smooth = smoothPlanes(ground.lab, ground.width, ground.height),
): FoundLine[] {
  const { width, height } = ground
  const votes = ballot(smooth, width, height, border, inside, sight)
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
  return candidates.slice(0, CANDIDATES).map(({ found }) => refined(smooth, ground, found, sight, lineAt))
}

/** Votes by angle (row) and rho (column). */
function ballot(
  smooth: LabPlanes,
  width: number,
  height: number,
  border: Int32Array,
  inside: Pixel,
  sight: Sight,
): Float32Array {
  const reach = Math.ceil(Math.hypot(width, height) / 2 / RHO_STEP)
  const rhos = 2 * reach + 1
  const votes = new Float32Array(ANGLES * rhos)
  const slopes = new SlopeRow(smooth, width, height)
  const usual = new Float32Array(border.length)
  for (let k = 0; k < usual.length; k++) {
    const i = border[k] as number
    slopes.readAt(Math.floor(i / width))
    usual[k] = slopes.sizeAt(i % width)
  }
  const least = Math.max(LEAST_SLOPE, SLOPES * upperMedian(usual))
  const normals = allNormals(rhos, reach)
  const clear = Math.max(0, sight.clear - PEAK_REACH)
  const below = Math.min(height - 1, sight.below)
  for (let y = 1; y < below; y++) {
    const down = y + 0.5 - height / 2
    slopes.readAt(y)
    // All lines through this part of the row come too near to the inside.
    const half = Math.sqrt(Math.max(0, clear * clear - (y + 0.5 - inside.y) ** 2))
    for (let x = 1; x < width - 1; x++) {
      if (slopes.isBelow(x, least)) continue
      if (Math.abs(x + 0.5 - inside.x) < half) continue
      const say = slopes.isBelow(x, MOST_SAY) ? slopes.sizeAt(x) : MOST_SAY
      const right = x + 0.5 - width / 2
      const direction = Math.atan2(slopes.dy[x] as number, slopes.dx[x] as number)
      const turn = Math.round((direction * ANGLES) / Math.PI) + ANGLES
      for (let near = turn; near <= turn + 2 * SPREAD; near++) {
        const rho = right * (normals.cosines[near] as number) + down * (normals.sines[near] as number)
        const at = (normals.middles[near] as number) + (Math.round(rho / RHO_STEP) | 0)
        votes[at] = (votes[at] as number) + say
      }
    }
  }
  return votes
}

interface Normals {
  readonly cosines: Float64Array
  readonly sines: Float64Array
  /** Where in the votes the bin of rho 0 lies. */
  readonly middles: Int32Array
}

/** For each direction that a slope may have or be near to, from SPREAD steps below -180 degrees on: its line's normal. */
function allNormals(rhos: number, reach: number): Normals {
  const length = 2 * (ANGLES + SPREAD) + 1
  const turns = Array.from({ length }, (_, i) => (i - SPREAD + ANGLES) % ANGLES)
  return {
    cosines: Float64Array.from(turns, (turn) => Math.cos((turn * Math.PI) / ANGLES)),
    sines: Float64Array.from(turns, (turn) => Math.sin((turn * Math.PI) / ANGLES)),
    middles: Int32Array.from(turns, (turn) => turn * rhos + reach),
  }
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
  { below }: Sight,
  lineAt: (angle: number, rho: number) => FoundLine | null,
): FoundLine {
  let best = { found, jump: 0 }
  for (const turn of FINE_TURNS) {
    for (const shift of FINE_SHIFTS) {
      const moved = lineAt(found.angle + (turn * Math.PI) / 180, found.rho + shift)
      if (!moved) continue
      const jump = meanJump(smooth, width, height, moved.line, below)
      if (jump > best.jump) best = { found: moved, jump }
    }
  }
  return best.found
}

/** ΔE between both sides, averaged as a color difference along the line; a piece counts for no more than 10 ΔE. */
function meanJump(smooth: LabPlanes, width: number, height: number, line: FrameLine, below: number): number {
  // One declaration each: taken from a list they would not be kept as plain numbers, which is slow.
  let n = 0
  let dL = 0
  let da = 0
  let db = 0
  const { L, a, b } = smooth
  const [besideX, besideY] = [APART * line.nx, APART * line.ny]
  for (let t = STRIDE; t < line.length - STRIDE; t += STRIDE) {
    const x = line.x + t * line.dx
    const y = line.y + t * line.dy
    // It begins at its upper end.
    if (y > below) break
    const inner = pixel(x + besideX, y + besideY, width, height)
    const outer = pixel(x - besideX, y - besideY, width, height)
    n++
    dL += bounded((L[outer] as number) - (L[inner] as number))
    da += bounded((a[outer] as number) - (a[inner] as number))
    db += bounded((b[outer] as number) - (b[inner] as number))
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
