import type { Frame } from '../../examples/drawing/frame.ts'
import { drawPortrait } from '../../examples/drawing/portrait.ts'
import type { Truth } from '../../examples/drawing/truth.ts'
import type { DecodedPicture } from '../../src/measure/decoded-picture.ts'
import { loadFaceModel } from '../../src/measure/face-model.ts'
import { findFaces } from '../../src/measure/find-faces.ts'
import type { PictureMeasurements } from '../../src/measure/picture.ts'
import { backgroundEvenness } from '../../src/rules/background-evenness.ts'
import { backgroundLuminance } from '../../src/rules/background-luminance.ts'
import { clipping } from '../../src/rules/clipping.ts'
import { eyeFocus } from '../../src/rules/eye-focus.ts'
import { eyeLine } from '../../src/rules/eye-line.ts'
import { facing } from '../../src/rules/facing.ts'
import { headHeight } from '../../src/rules/head-height.ts'
import { headroom } from '../../src/rules/headroom.ts'
import { keySide } from '../../src/rules/key-side.ts'
import { lensGlare } from '../../src/rules/lens-glare.ts'
import { GROUP_CASES, type GroupCase, KEY_ASKED, wearing } from './group-cases.ts'
import type { Judged } from './judged.ts'
import { aboutNumber, ask, type Question } from './questions.ts'
import { clipped, outOfFocus } from './spoiled.ts'
import { turnedFace } from './turned-face.ts'

const GLARE = { max: 3 }
const CLIPPING = { highlights: { max: 1 }, shadows: { max: 1 } }
const FOCUS = { max: 2.5 }
// As fine as the pixels of these pictures show: 80 to 90 between the eyes.
const FINE_FOCUS = { max: 1.5 }
const TURN = { turn: { max: 10 } }
const NOD = { nod: { max: 10 } }
/** In % of the frame height and in L*. */
const CLOSE = 1
const BLUR_PX = 4
const CLIPPED_SHARE = 0.02
const ROTATED_DEG = 30

/** The questions of all measures to drawn sitters of ten skin tones under seven kinds of hair and headwear. */
export async function evaluateGroups(): Promise<Judged[]> {
  const judged: Judged[] = []
  for (const one of GROUP_CASES) judged.push(...(await goodPicture(one)), ...(await faultyPicture(one)))
  return judged
}

async function goodPicture(one: GroupCase): Promise<Judged[]> {
  const { name, groups, index } = one
  const { picture, truth } = await drawn(one, 'good')
  const { judged, found } = await ask(
    name,
    groups,
    picture,
    ['background', 'face', 'head', 'finish', 'focus'],
    [
      ...headQuestions(truth),
      ...backdropQuestions(truth),
      { measure: 'lens-glare', rule: lensGlare, options: GLARE, should: 'pass', error: glareOf },
      ...clippingQuestions('pass', 0),
      keyQuestion('pass', one.good),
      facingQuestion('turn', 'pass', 0),
      facingQuestion('nod', 'pass', 0),
      { measure: 'eye-focus', rule: eyeFocus, options: FOCUS, should: 'pass' },
      { measure: 'eye-focus, few pixels', rule: eyeFocus, options: FINE_FOCUS, should: 'pass' },
    ],
  )
  const share = clipped(picture, CLIPPED_SHARE, index)
  const own = found.finish?.focus?.eyePx ?? 0
  const soft = await outOfFocus(picture, BLUR_PX, truth.eyeDistancePx)
  return [
    ...judged,
    ...(await ask(name, groups, share, ['finish'], clippingQuestions('fail', 100 * CLIPPED_SHARE))).judged,
    ...(await ask(name, groups, soft, ['finish', 'focus'], softQuestions(own))).judged,
    ...(await rotatedPictures(one, picture)),
  ]
}

async function faultyPicture(one: GroupCase): Promise<readonly Judged[]> {
  const { picture } = await drawn(one, 'faulty')
  const { judged } = await ask(
    one.name,
    one.groups,
    picture,
    ['finish'],
    [
      { measure: 'lens-glare', rule: lensGlare, options: GLARE, should: 'fail' },
      keyQuestion('fail', one.faulty),
    ],
  )
  return judged
}

/** Turned to one side and to the other, nodded up and down, in turn. */
async function rotatedPictures(
  { name, groups, index }: GroupCase,
  picture: DecodedPicture,
): Promise<Judged[]> {
  const found = await findFaces(await loadFaceModel(), picture)
  if (!found) throw new Error(`${name} has no face.`)
  const sign = (Math.floor(index / 10) + index) % 2 === 0 ? 1 : -1
  const turned = turnedFace(picture, found.largest.mesh, sign * ROTATED_DEG, 0)
  const nodded = turnedFace(picture, found.largest.mesh, 0, sign * ROTATED_DEG)
  const turn = facingQuestion('turn', 'fail', sign * ROTATED_DEG)
  const nod = facingQuestion('nod', 'fail', sign * ROTATED_DEG)
  return [
    ...(await ask(name, groups, turned, ['face'], [turn])).judged,
    ...(await ask(name, groups, nodded, ['face'], [nod])).judged,
  ]
}

async function drawn(
  one: GroupCase,
  which: 'good' | 'faulty',
): Promise<{ picture: DecodedPicture; truth: Truth }> {
  const { pixels, widthPx, heightPx, truth } = await drawPortrait(wearing(one, which), one[which])
  return { picture: { data: pixels, width: widthPx, height: heightPx, transparentShare: 0 }, truth }
}

function headQuestions({ crownY, chin, leftEye, rightEye }: Truth): Question[] {
  const height = 100 * (chin.y - crownY)
  return [
    ...aboutNumber('headroom', headroom, 100 * crownY, CLOSE, ({ head }) => head?.headroomPct),
    ...aboutNumber('eye-line', eyeLine, 50 * (leftEye.y + rightEye.y), CLOSE, ({ head }) => head?.eyeLinePct),
    ...aboutNumber('head-height', headHeight, height, CLOSE, ({ head }) => head?.headHeightPct),
  ]
}

function backdropQuestions({ backdropL, backdropEvennessL }: Truth): Question[] {
  const luminance = ({ background }: PictureMeasurements) => background?.luminanceL
  return [
    ...aboutNumber('background-luminance', backgroundLuminance, backdropL, CLOSE, luminance),
    {
      measure: 'background-evenness',
      rule: backgroundEvenness,
      options: { max: backdropEvennessL + CLOSE },
      should: 'pass',
      error: ({ background }) => less(background?.evennessL, backdropEvennessL),
    },
    {
      measure: 'background-evenness',
      rule: backgroundEvenness,
      options: { max: Math.max(0, backdropEvennessL - CLOSE) },
      should: 'fail',
    },
  ]
}

function clippingQuestions(should: Judged['should'], truePct: number): Question[] {
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

function keyQuestion(should: Judged['should'], { key }: Frame): Question {
  return {
    measure: 'key-side',
    rule: keySide,
    options: KEY_ASKED,
    should,
    error: ({ finish }) => less(finish?.keyRatioStops, key.ratioStops),
  }
}

function facingQuestion(angle: 'turn' | 'nod', should: Judged['should'], trueDeg: number): Question {
  return {
    measure: `facing, ${angle}`,
    rule: facing,
    options: angle === 'turn' ? TURN : NOD,
    should,
    error: ({ face }) => less(angle === 'turn' ? face?.turnDeg : face?.nodDeg, trueDeg),
  }
}

/** @param own what the eyes' own edges spread before they were blurred, in px at 240 px inter-eye distance */
function softQuestions(own: number): Question[] {
  return [
    {
      measure: 'eye-focus',
      rule: eyeFocus,
      options: FOCUS,
      should: 'fail',
      error: ({ finish }) => less(finish?.focus?.eyePx, Math.hypot(own, BLUR_PX)),
    },
    { measure: 'eye-focus, few pixels', rule: eyeFocus, options: FINE_FOCUS, should: 'fail' },
  ]
}

function glareOf({ finish }: PictureMeasurements): number | null {
  return finish?.lensGlarePct ?? null
}

function less(measured: number | null | undefined, truth: number): number | null {
  return measured === null || measured === undefined ? null : measured - truth
}
