import type { Frame } from '../../examples/drawing/frame.ts'
import type { Truth } from '../../examples/drawing/truth.ts'
import type { PictureMeasurements } from '../../src/measure/picture.ts'
import { backgroundLightness } from '../../src/rules/backdrop/background-lightness.ts'
import { backgroundUnevenness } from '../../src/rules/backdrop/background-unevenness.ts'
import { clipping } from '../../src/rules/finish/clipping.ts'
import { eyeFocus } from '../../src/rules/finish/eye-focus.ts'
import { keySide } from '../../src/rules/finish/key-side.ts'
import { lensGlare } from '../../src/rules/finish/lens-glare.ts'
import { eyeLine } from '../../src/rules/sitter/eye-line.ts'
import { facing } from '../../src/rules/sitter/facing.ts'
import { headHeight } from '../../src/rules/sitter/head-height.ts'
import { headroom } from '../../src/rules/sitter/headroom.ts'
import { KEY_ASKED } from './group-cases.ts'
import type { Judged } from './judged.ts'
import { aboutNumber, type Question } from './questions.ts'

const GLARE = { max: 3 }
const CLIPPING = { highlights: { max: 1 }, shadows: { max: 1 } }
const FOCUS = { max: 2.5 }
// As fine as the pixels of these pictures show: 80 to 90 between the eyes.
const FINE_FOCUS = { max: 1.5 }
const TURN = { turn: { max: 10 } }
const NOD = { nod: { max: 10 } }
// In % of the frame height and in L*.
const CLOSE = 1

export function headQuestions({ crownY, chin, leftEye, rightEye }: Truth): Question[] {
  const height = 100 * (chin.y - crownY)
  return [
    ...aboutNumber('headroom', headroom, 100 * crownY, CLOSE, ({ head }) => head?.headroomPct),
    ...aboutNumber('eye-line', eyeLine, 50 * (leftEye.y + rightEye.y), CLOSE, ({ head }) => head?.eyeLinePct),
    ...aboutNumber('head-height', headHeight, height, CLOSE, ({ head }) => head?.headHeightPct),
  ]
}

export function backdropQuestions({ backdropL, backdropUnevennessL }: Truth): Question[] {
  const luminance = ({ background }: PictureMeasurements) => background?.lightnessL
  return [
    ...aboutNumber('background-lightness', backgroundLightness, backdropL, CLOSE, luminance),
    {
      measure: 'background-unevenness',
      rule: backgroundUnevenness,
      options: { max: backdropUnevennessL + CLOSE },
      should: 'pass',
      error: ({ background }) => less(background?.unevennessL, backdropUnevennessL),
    },
    {
      measure: 'background-unevenness',
      rule: backgroundUnevenness,
      options: { max: Math.max(0, backdropUnevennessL - CLOSE) },
      should: 'fail',
    },
  ]
}

export function clippingQuestions(should: Judged['should'], truePct: number): Question[] {
  const { highlights, shadows } = CLIPPING
  return [
    {
      measure: 'clipping, highlights',
      rule: clipping,
      options: { highlights },
      should,
      error: ({ finish }) => less(finish?.clippedHighlightPct, truePct),
    },
    {
      measure: 'clipping, shadows',
      rule: clipping,
      options: { shadows },
      should,
      error: ({ finish }) => less(finish?.clippedShadowPct, truePct),
    },
  ]
}

export function keyQuestion(should: Judged['should'], { key }: Frame): Question {
  return {
    measure: 'key-side',
    rule: keySide,
    options: KEY_ASKED,
    should,
    error: ({ finish }) => less(finish?.keyRatioStops, key.ratioStops),
  }
}

export function facingQuestion(angle: 'turn' | 'nod', should: Judged['should'], trueDeg: number): Question {
  return {
    measure: `facing, ${angle}`,
    rule: facing,
    options: angle === 'turn' ? TURN : NOD,
    should,
    error: ({ face }) => less(angle === 'turn' ? face?.turnDeg : face?.nodDeg, trueDeg),
  }
}

export function sharpQuestions(): Question[] {
  return [
    { measure: 'eye-focus', rule: eyeFocus, options: FOCUS, should: 'pass' },
    { measure: 'eye-focus, few pixels', rule: eyeFocus, options: FINE_FOCUS, should: 'pass' },
  ]
}

/** @param spreadPx what the eyes' own edges and the blur add up to, in px at 240 px inter-eye distance */
export function softQuestions(spreadPx: number): Question[] {
  return [
    {
      measure: 'eye-focus',
      rule: eyeFocus,
      options: FOCUS,
      should: 'fail',
      error: ({ finish }) => less(finish?.focus?.eyePx, spreadPx),
    },
    { measure: 'eye-focus, few pixels', rule: eyeFocus, options: FINE_FOCUS, should: 'fail' },
  ]
}

export function glareQuestion(should: Judged['should']): Question {
  const question: Question = { measure: 'lens-glare', rule: lensGlare, options: GLARE, should }
  if (should === 'fail') return question
  return { ...question, error: ({ finish }) => finish?.lensGlarePct ?? null }
}

function less(measured: number | null | undefined, truth: number): number | null {
  return measured === null || measured === undefined ? null : measured - truth
}
