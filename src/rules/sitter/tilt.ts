import { TILT_LEAST_EYE_DISTANCE_PX } from '../../measure/schema/gates.ts'
import { atLeast, quantity } from '../../text/quantity.ts'
import { defineRule } from '../contract/rule.ts'
import { Deviation, deviationLimits, judgeDeviation } from '../judging/deviation.ts'
import { unmeasured } from '../judging/unmeasured.ts'
import { ERROR_NOTE } from '../judging/within-error.ts'

const ENOUGH = { min: TILT_LEAST_EYE_DISTANCE_PX, max: Infinity }

export const tilt = defineRule({
  id: 'tilt',
  severity: 'picture',
  text: {
    title: 'Tilt of the head',
    measures: `The angle between the line through both irises and the horizontal, in degrees, positive clockwise as seen in the frame. An error of one pixel in one eye is 0.6° at 90 px between the eyes; below ${TILT_LEAST_EYE_DISTANCE_PX} px the rule is unsure. ${ERROR_NOTE}`,
    why: 'Tilted heads look restless side by side, and often only the camera was not level.',
    fix: 'Rotate the picture until the eyes are level enough, then crop again.',
    example: 'tilt: { max: 4 }',
  },
  options: Deviation,
  needs: ['face'],
  framing: (deviation) => ({ tilt: deviationLimits(deviation) }),
  judge({ measured }, deviation) {
    const { face } = measured
    if (!face) return unmeasured(measured, 'The tilt')
    const finding = judgeDeviation({
      noun: 'The tilt',
      unit: '°',
      shortUnit: '°',
      place: (size, sign) =>
        sign === 0 ? 'level' : `${size} ${sign < 0 ? 'counterclockwise' : 'clockwise'}`,
      sentence: (place, sign) => `The eye line is ${sign === 0 ? '' : 'tilted '}${place}`,
      either: 'either way',
      value: face.tiltDeg,
      error: face.tiltErrorDeg,
      deviation,
      confidence: face.confidence,
      doubts: face.doubts,
      low: (by) => `Rotate the picture clockwise by at least ${atLeast(by, '°')}, then crop again.`,
      high: (by) => `Rotate the picture counterclockwise by at least ${atLeast(by, '°')}, then crop again.`,
    })
    const { eyeDistancePx } = face
    if (
      finding.verdict === 'unsure' ||
      (eyeDistancePx !== null && eyeDistancePx >= TILT_LEAST_EYE_DISTANCE_PX)
    )
      return finding
    const apart = eyeDistancePx === null ? 'an unknown distance' : quantity(eyeDistancePx, ' px', ENOUGH)
    return {
      verdict: 'unsure',
      measured: `about ${finding.measured}`,
      expected: finding.expected,
      reason: `The tilt can't be measured to a degree: the eyes are ${apart} apart, and ${TILT_LEAST_EYE_DISTANCE_PX} px are needed. The spec asks for ${finding.expected}; check by eye.`,
    }
  },
})
