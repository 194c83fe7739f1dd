import { Type } from '@sinclair/typebox'
import { SURE } from '../../measure/schema/confidence.ts'
import type { Face } from '../../measure/schema/measurements.ts'
import { count } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { doubtSentence } from '../judging/doubts.ts'
import { unmeasured } from '../judging/unmeasured.ts'

/**
 * Detector score, 0..1, under which a further face may as well be a pattern on cloth.
 * @tuned on drawn and photographed portraits, no figures kept.
 */
const WEAK_SCORE = 0.6

/**
 * Size under which a further face may as well be a badge photograph or a picture on the wall, share of the largest face's height.
 * @choice another person who is up to three times as far from the camera is larger than this.
 */
const TINY_SHARE = 0.3

const EXPECTED = '1 face'

export const oneFace = defineRule({
  id: 'one-face',
  severity: 'unusable',
  dependsOn: 'scene',
  text: {
    title: 'Exactly one person in the picture',
    measures: `The number of faces found. A picture in which nothing looks like a face fails; a face that is found but weak makes the rule unsure. So does another face that is weak (score under ${WEAK_SCORE}) or tiny (under ${TINY_SHARE} of the height of the largest): it may be a badge photo or a pattern. Faces are counted and located; nobody is recognized.`,
    why: 'A staff portrait shows its sitter alone, and every measurement of the head relies on it.',
    fix: 'Choose a frame with the sitter alone, crop the other person out, or retouch.',
    example: 'one-face: true',
  },
  options: Type.Literal(true, { description: 'Always on; false switches it off.' }),
  always: true,
  needs: ['face'],
  judge({ measured }) {
    const { face } = measured
    if (!face) return unmeasured(measured, 'The number of faces')
    if (face.count === 0) return NO_FACE
    const strong = strongOthers(face)
    if (strong > 0) return severalFaces(strong + 1)
    if (face.count === 1 && face.confidence >= SURE)
      return {
        verdict: 'pass',
        measured: '1 face',
        expected: EXPECTED,
        reason: 'There is 1 face in the picture; the spec asks for 1.',
      }
    return unsure(face)
  },
})

/** Faces beside the largest that can't be taken for anything else; none when the largest itself is weak. */
function strongOthers({ score, box, others }: Face): number {
  if (score < WEAK_SCORE || !box) return 0
  return others.filter((other) => other.score >= WEAK_SCORE && other.box.height >= TINY_SHARE * box.height)
    .length
}

const NO_FACE: Finding = {
  verdict: 'fail',
  measured: 'no face',
  expected: EXPECTED,
  reason:
    'No face was found in the picture, so nothing that depends on one was judged; the spec asks for 1 face.',
  fix: "Deliver the sitter's portrait, upright and with the face in view.",
}

function severalFaces(faces: number): Finding {
  return {
    verdict: 'fail',
    measured: count(faces, 'face'),
    expected: EXPECTED,
    reason: `There are ${faces} faces in the picture; the spec asks for 1.`,
    fix: `Choose a frame with the sitter alone, or crop out the other ${faces === 2 ? 'person' : 'people'}.`,
  }
}

function unsure(face: Face): Finding {
  const finding = { verdict: 'unsure', expected: EXPECTED } as const
  if (face.count === 1)
    return {
      ...finding,
      measured: 'about 1 face',
      reason: `The number of faces is uncertain: ${doubtSentence(face.doubts)}. The spec asks for 1; check by eye.`,
    }
  const others = count(face.count - 1, 'other spot looks', 'other spots look')
  return {
    ...finding,
    measured: `about ${count(face.count, 'face')}`,
    reason: `Besides the sitter, ${others} like a small or faint face (a badge, a picture, a pattern?). The spec asks for 1 face; check by eye.`,
  }
}
