import type { Truth } from '../../examples/drawing/truth.ts'
import { findFaces } from '../../src/measure/face/find-faces.ts'
import { loadFaceModel } from '../../src/measure/face/networks/face-model.ts'
import type { DecodedPicture } from '../../src/measure/file/decoded-picture.ts'
import { drawnPortrait } from '../drawn.ts'
import { GROUP_CASES, type GroupCase, wearing } from './group-cases.ts'
import {
  backdropQuestions,
  clippingQuestions,
  facingQuestion,
  glareQuestion,
  headQuestions,
  keyQuestion,
  sharpQuestions,
  softQuestions,
} from './group-questions.ts'
import type { Judged } from './judged.ts'
import { ask } from './questions.ts'
import { clipped, outOfFocus } from './spoiled.ts'
import { turnedFace } from './turned-face.ts'

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
      glareQuestion('pass'),
      ...clippingQuestions('pass', 0),
      keyQuestion('pass', one.good),
      facingQuestion('turn', 'pass', 0),
      facingQuestion('nod', 'pass', 0),
      ...sharpQuestions(),
    ],
  )
  const share = clipped(picture, CLIPPED_SHARE, index)
  const own = found.finish?.focus?.eyePx ?? 0
  const soft = await outOfFocus(picture, BLUR_PX, truth.eyeDistancePx)
  return [
    ...judged,
    ...(await ask(name, groups, share, ['finish'], clippingQuestions('fail', 100 * CLIPPED_SHARE))).judged,
    ...(await ask(name, groups, soft, ['finish', 'focus'], softQuestions(Math.hypot(own, BLUR_PX)))).judged,
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
    [glareQuestion('fail'), keyQuestion('fail', one.faulty)],
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
  const { pixels, widthPx, heightPx, truth } = await drawnPortrait(wearing(one, which), one[which])
  return { picture: { data: pixels, width: widthPx, height: heightPx, transparentShare: 0 }, truth }
}
