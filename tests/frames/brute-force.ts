import type { Verdict } from '../../src/rules/contract/outcome.ts'
import { fitsShape, outputsFor } from '../framing/brute-force.ts'
import type { Asked } from '../framing/cases.ts'
import type { RandomFrame } from './random-frames.ts'

// Every crop of a small frame is tried, with the formulas of the rules' definitions and none of the solver's code.

interface Box {
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
}

/** What can be said of a crop: all is right whatever the errors, or with luck, or something is wrong in any case. */
type Answer = Extract<Verdict, 'pass' | 'fail' | 'unsure'>

/** The best answer that any crop of the frame gets. */
export function bruteForce(frame: RandomFrame, asked: Asked): Answer {
  const turns = turnsFor(frame, asked)
  if (typeof turns === 'string') return turns
  const answers = turns.map((turn) => bestCrop(frame, asked, turn))
  return (['pass', 'unsure'] as const).find((one) => answers.includes(one)) ?? 'fail'
}

/** The turns that may level a frame: by up to 5 degrees, to the middle of the limits or as little as will do. */
function turnsFor({ tiltDeg, errors }: RandomFrame, asked: Asked): readonly number[] | Answer {
  const limits = deviation(asked.tilt)
  if (!limits) return [0]
  const middle = (limits.min + limits.max) / 2
  const wide = limits.max - limits.min >= 2 * errors.tilt
  const nearest = Math.min(Math.max(tiltDeg, limits.min + errors.tilt), limits.max - errors.tilt)
  const least = (wide ? nearest : middle) - tiltDeg
  if (least === 0) return [0]
  if (Math.abs(least) <= 5) return [Math.min(5, Math.max(-5, middle - tiltDeg)), least]
  return Math.max(limits.min - errors.tilt - tiltDeg, tiltDeg - limits.max - errors.tilt) > 5
    ? 'fail'
    : 'unsure'
}

function bestCrop(frame: RandomFrame, asked: Asked, turn: number): Answer {
  const canvas = canvasOf(frame, asked, turn)
  const outputs = outputsFor(canvas, asked)
  const edges = asked['backdrop-edge'] && !frame.edgesKnown ? 'unsure' : 'pass'
  let best: Answer = 'fail'
  for (let width = 1; width <= canvas.width; width++) {
    for (let height = 1; height <= canvas.height; height++) {
      if (!fitsShape(width, height, asked, outputs)) continue
      const down = Array.from({ length: canvas.height - height + 1 }, (_, top) => ({
        top,
        answer: downAnswer(canvas, asked, top, height),
      })).filter(({ answer }) => answer !== 'fail')
      if (down.length === 0) continue
      for (let left = 0; left + width <= canvas.width; left++) {
        const across = acrossAnswer(canvas, asked, left, width)
        if (across === 'fail') continue
        for (const { top, answer } of down) {
          if (!isClear(canvas, asked, { left, top, width, height })) continue
          const all = worst([answer, across, canvas.tilt, edges])
          if (all === 'pass') return 'pass'
          if (all === 'unsure') best = 'unsure'
        }
      }
    }
  }
  return best
}

function worst(answers: readonly Answer[]): Answer {
  return (['fail', 'unsure'] as const).find((one) => answers.includes(one)) ?? 'pass'
}

/** The frame once it is leveled, in px of its canvas. */
interface Canvas extends Omit<RandomFrame, 'faceWidth' | 'tiltDeg'> {
  readonly tilt: Answer
  readonly faceLeft: number
  readonly faceRight: number
  readonly headHeight: number
  /** Whether a place of the canvas is in the picture. */
  readonly covers: (x: number, y: number) => boolean
}

export function canvasOf(frame: RandomFrame, asked: Asked, turn: number): Canvas {
  const { width, height, eyeX, eyeY, crown, chin, faceWidth, faceTop, faceHeight, tiltDeg, errors } = frame
  const limits = deviation(asked.tilt)
  const tilt = limits ? within(tiltDeg + turn, limits, errors.tilt) : 'pass'
  const angle = (turn * Math.PI) / 180
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  const canvas = {
    width: Math.floor(width * cos + height * Math.abs(sin)),
    height: Math.floor(width * Math.abs(sin) + height * cos),
  }
  const at = (x: number, y: number) => ({
    x: canvas.width / 2 + (x - width / 2) * cos - (y - height / 2) * sin,
    y: canvas.height / 2 + (x - width / 2) * sin + (y - height / 2) * cos,
  })
  const around = (left: number, top: number, right: number, bottom: number) => {
    const corners = [at(left, top), at(right, top), at(left, bottom), at(right, bottom)]
    const [xs, ys] = [corners.map(({ x }) => x), corners.map(({ y }) => y)]
    return { left: Math.min(...xs), top: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys) }
  }
  const face = around(eyeX - faceWidth / 2, faceTop, eyeX + faceWidth / 2, faceTop + faceHeight)
  const cosine = (deg: number) => Math.cos((deg * Math.PI) / 180)
  return {
    ...frame,
    ...canvas,
    tilt,
    crown: at(eyeX, crown).y,
    chin: at(eyeX, chin).y,
    eyeX: at(eyeX, eyeY).x,
    eyeY: at(eyeX, eyeY).y,
    faceLeft: Math.max(0, face.left),
    faceRight: Math.min(canvas.width, face.right),
    headHeight: ((chin - crown) * cosine(tiltDeg + turn)) / cosine(tiltDeg),
    intrusions: frame.intrusions.map((one) => ({
      ...around(one.left, one.top, one.right, one.bottom),
      areaPx: one.areaPx,
    })),
    covers: (x, y) => {
      if (turn === 0) return x >= 0 && y >= 0 && x <= width && y <= height
      const [dx, dy] = [x - canvas.width / 2, y - canvas.height / 2]
      const [u, v] = [dx * cos + dy * sin, dy * cos - dx * sin]
      // One pixel of interpolation is left out.
      return Math.abs(u) <= width / 2 - 1 + 1e-9 && Math.abs(v) <= height / 2 - 1 + 1e-9
    },
  }
}

interface Range {
  readonly min: number
  readonly max: number
}

function deviation(asked: unknown): Range | null {
  const {
    max,
    target,
    tolerance = 0,
  } = (asked ?? {}) as { max?: number; target?: number; tolerance?: number }
  if (target !== undefined) return { min: target - tolerance, max: target + tolerance }
  return max === undefined ? null : { min: -max, max }
}

function band(asked: unknown): Range | null {
  const {
    min,
    max,
    target,
    tolerance = 0,
  } = (asked ?? {}) as Partial<Range> & {
    target?: number
    tolerance?: number
  }
  if (target !== undefined) return { min: target - tolerance, max: target + tolerance }
  return asked ? { min: min ?? -Infinity, max: max ?? Infinity } : null
}

/** Whether a value is within a range wherever it is within its error, or somewhere. */
function within(value: number, range: Range | null, error: number): Answer {
  if (!range) return 'pass'
  const side = (at: number) => (at < range.min - 1e-9 ? -1 : at > range.max + 1e-9 ? 1 : 0)
  const [low, high] = [side(value - error), side(value + error)]
  if (low !== high) return 'unsure'
  return low === 0 ? 'pass' : 'fail'
}

function downAnswer(canvas: Canvas, asked: Asked, top: number, height: number): Answer {
  const { crown, chin, eyeY, headHeight, errors } = canvas
  const pct = (px: number) => (100 * px) / height
  const inside = (y: number) => y >= top - 1e-9 && y <= top + height + 1e-9
  const headroom = band(asked.headroom)
  const cuts = headroom && (headroom.max < 0 || (headroom.min < 0 && headroom.min !== -Infinity))
  if (!(cuts || inside(crown)) || !inside(Math.min(chin, canvas.height)) || !inside(eyeY)) return 'fail'
  return worst([
    within(pct(crown - top), headroom, pct(errors.crown)),
    within(pct(eyeY - top), band(asked['eye-line']), pct(errors.eyeLine)),
    within(pct(headHeight), band(asked['head-height']), pct(errors.headHeight)),
  ])
}

function acrossAnswer(canvas: Canvas, asked: Asked, left: number, width: number): Answer {
  const { eyeX, faceLeft, faceRight, errors } = canvas
  const right = left + width
  if (faceLeft < left - 1e-9 || faceRight > right + 1e-9 || eyeX < left || eyeX > right) return 'fail'
  const offCenter = 100 * ((eyeX - left) / width - 0.5)
  return within(offCenter, deviation(asked.centering), (100 * errors.offCenter) / width)
}

/** Whether the crop lies in the picture, and nothing in it stands at the edge that is large enough to count. */
export function isClear(
  { covers, intrusions }: Canvas,
  asked: Asked,
  { left, top, width, height }: Box,
): boolean {
  const [right, bottom] = [left + width, top + height]
  if (!covers(left, top) || !covers(right, top) || !covers(left, bottom) || !covers(right, bottom))
    return false
  const smallest = asked['backdrop-edge']
  if (!smallest) return true
  const least = smallest === true ? 0.1 : (smallest as { 'smallest-pct': number })['smallest-pct']
  return !intrusions.some(
    (one) =>
      100 * one.areaPx >= least * width * height - 1e-9 &&
      left < Math.ceil(one.right - 1e-9) &&
      right > Math.floor(one.left + 1e-9) &&
      top < Math.ceil(one.bottom - 1e-9) &&
      bottom > Math.floor(one.top + 1e-9),
  )
}
