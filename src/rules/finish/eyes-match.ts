import { Type } from '@sinclair/typebox'
import { SURE } from '../../measure/schema/confidence.ts'
import { EYES_MATCH_LEAST_EYE_DISTANCE_PX, EYES_MATCH_MOST_TURN_DEG } from '../../measure/schema/gates.ts'
import type { EyePair, Spectacles } from '../../measure/schema/measurements.ts'
import { quantity } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { clockPosition } from '../judging/clock-position.ts'
import { combined } from '../judging/combined.ts'
import { doubtSentence } from '../judging/doubts.ts'
import { skipped, unmeasured } from '../judging/unmeasured.ts'

/**
 * How far apart the lights in two eyes of one frame are at most, radii of an iris.
 * @tuned on 51 portraits in one light, half of them held out in turn: 0.18 at most
 */
const MOST_APART = 0.4

/**
 * By how much one iris of one frame is wider than the other at most, %.
 * @tuned on the same: the least difference that fits is 0 for all of them. Rüfer, Schröder and Erb, Cornea 24(3), 2005, from memory: both
 *   corneas of a person are as wide within 2 %
 */
const MOST_WIDER_PCT = 6

const EXPECTED = 'eyes of one frame'
const FIX = 'Take both eyes from one frame'

export const eyesMatch = defineRule({
  id: 'eyes-match',
  severity: 'picture',
  dependsOn: 'export',
  text: {
    title: 'Both eyes from one frame',
    measures: `Whether an eye was replaced by one from another frame: both eyes see the same lights, so the catchlights stand at the same place in both irises (up to ${MOST_APART} radii of an iris apart, the tilt of the eyes' own axes allowed for), and irises are as wide as each other (within ${MOST_WIDER_PCT} %). Of several lights the two that fit best count; a light that one eye alone reflects is no fault. The color of the eyes, their pupils and where they look are not judged: they differ in many people. Behind spectacles, which change sizes and reflect lights of their own, a difference is no fault. Unsure with less than ${EYES_MATCH_LEAST_EYE_DISTANCE_PX} px between the eyes, in faces turned by more than ${EYES_MATCH_MOST_TURN_DEG}°, and where lids hide the irises.`,
    why: 'An eye pasted from another frame gives a strange look that viewers notice before they know why.',
    fix: 'Take both eyes from one frame, or match the pasted one: its size, and where its catchlight stands.',
    example: 'eyes-match: true',
  },
  options: Type.Literal(true, { description: 'Catchlights and sizes of both irises must match.' }),
  needs: ['face', 'finish', 'eyes'],
  judge({ measured }) {
    const { finish } = measured
    if (!finish?.eyePair) return unmeasured(measured, 'Whether the eyes match')
    const { irisDifferencePct, confidence, doubts } = finish.eyePair
    if (irisDifferencePct === null || confidence < SURE) return unsure(doubts)
    const finding = combined([judgeLights(finish.eyePair), judgeSizes(irisDifferencePct, finish.eyePair)])
    return finding.verdict === 'fail' ? throughLenses(finding, finish.spectacles) : finding
  },
})

/** What looks wrong may lie in front of the eyes. */
function throughLenses(finding: Finding, { worn, confidence }: Spectacles): Finding {
  if (confidence < SURE) return unsure(['frames-unclear'])
  return worn === false
    ? finding
    : skipped(
        'Spectacles: lenses change the size of an eye and reflect lights of their own, so that a difference between the eyes says nothing.',
      )
}

function unsure(doubts: EyePair['doubts']): Finding {
  return {
    verdict: 'unsure',
    measured: null,
    expected: EXPECTED,
    reason: `The eyes could not be compared with confidence: ${doubtSentence(doubts)}. The spec asks for ${EXPECTED}; check by eye.`,
  }
}

function judgeLights({ left, right, catchlightsApart }: EyePair): Finding {
  if (catchlightsApart === null || !left?.catchlight || !right?.catchlight)
    return {
      verdict: 'pass',
      measured: 'no catchlights to compare',
      expected: EXPECTED,
      reason: 'At least one eye reflects no light.',
    }
  const [atLeft, atRight] = [clockPosition(left.catchlight), clockPosition(right.catchlight)]
  const apart = quantity(catchlightsApart, '', { min: -Infinity, max: MOST_APART })
  const figure = { value: catchlightsApart, max: MOST_APART }
  if (catchlightsApart <= MOST_APART)
    return {
      verdict: 'pass',
      measured: 'catchlights match',
      expected: EXPECTED,
      figure,
      reason: 'The catchlights stand at the same place in both eyes.',
    }
  return {
    verdict: 'fail',
    measured: `catchlights at ${atLeft} and ${atRight}`,
    expected: EXPECTED,
    figure,
    reason: `The catchlight is at ${atLeft} in the left eye in the frame and at ${atRight} in the right, ${apart} radii of the iris apart; in one frame they are at most ${MOST_APART} apart.`,
    fix: `${FIX}, or move the catchlight of the pasted one.`,
  }
}

function judgeSizes(differencePct: number, { left, right }: EyePair): Finding {
  const wider = (left?.irisPx ?? 0) > (right?.irisPx ?? 0) ? 'left' : 'right'
  const by = quantity(differencePct, ' %', { min: -Infinity, max: MOST_WIDER_PCT })
  const figure = { value: differencePct, max: MOST_WIDER_PCT }
  if (differencePct <= MOST_WIDER_PCT)
    return {
      verdict: 'pass',
      measured: 'irises match',
      expected: EXPECTED,
      figure,
      reason: `The irises are as wide as each other, within ${MOST_WIDER_PCT} %.`,
    }
  return {
    verdict: 'fail',
    measured: `${wider} iris ${by} wider`,
    expected: EXPECTED,
    figure,
    reason: `The iris of the ${wider} eye in the frame is ${by} wider than the other; in one frame they differ by at most ${MOST_WIDER_PCT} %.`,
    fix: `${FIX}, or scale the pasted one to the size of the other.`,
  }
}
