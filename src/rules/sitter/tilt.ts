import { atLeast } from '../../text/quantity.ts'
import { defineRule } from '../contract/rule.ts'
import { Deviation, deviationLimits, judgeDeviation } from '../judging/deviation.ts'
import { unmeasured } from '../judging/unmeasured.ts'
import { ERROR_NOTE } from '../judging/within-error.ts'

export const tilt = defineRule({
  id: 'tilt',
  severity: 'picture',
  dependsOn: 'crop',
  text: {
    title: 'Tilt of the head',
    measures: `The angle between the line through both irises and the horizontal, in degrees, positive clockwise as seen in the frame. ${ERROR_NOTE}`,
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
    return judgeDeviation({
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
  },
})
