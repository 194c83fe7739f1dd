import { pixels } from '../../text/quantity.ts'
import { defineRule } from '../contract/rule.ts'
import { emptyRange } from '../judging/band.ts'
import { Deviation, deviationLimits, judgeDeviation } from '../judging/deviation.ts'
import { unmeasured } from '../judging/unmeasured.ts'
import { ERROR_NOTE } from '../judging/within-error.ts'

export const centering = defineRule({
  id: 'centering',
  severity: 'picture',
  dependsOn: 'crop',
  text: {
    title: 'Face centered between left and right',
    measures: `How far the midpoint between the irises is from the center of the frame, in percent of the frame width; positive to the right as seen in the frame. ${ERROR_NOTE}`,
    why: 'An off-center face stands out in a grid of portraits and is cut unevenly by a round or square crop.',
    fix: 'Move the crop to the left or right.',
    example: 'centering: { max: 3 }',
  },
  options: Deviation,
  needs: ['background', 'face', 'head'],
  problem: (deviation) => emptyRange(deviationLimits(deviation)),
  framing: (deviation) => ({ centering: deviationLimits(deviation) }),
  judge({ measured }, deviation) {
    const { face, head, widthPx } = measured
    if (!face || !head || !widthPx) return unmeasured(measured, 'The centering')
    return judgeDeviation({
      noun: 'The centering',
      unit: ' % of the frame width',
      shortUnit: ' %',
      place: (size, sign) =>
        sign === 0 ? 'at the center' : `${size} ${sign < 0 ? 'left' : 'right'} of center`,
      sentence: (place) => `The midpoint of the eyes is ${place}`,
      either: 'to either side',
      value: head.offCenterPct,
      error: head.offCenterErrorPct,
      deviation,
      // Only the eyes matter here: the head's confidence also covers the crown, which may be lost on white.
      confidence: face.confidence,
      doubts: face.doubts,
      low: (by) => `Move the crop to the left by ${pixels(by, widthPx)}.`,
      high: (by) => `Move the crop to the right by ${pixels(by, widthPx)}.`,
    })
  },
})
