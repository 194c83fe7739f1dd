import { pixels } from '../../text/quantity.ts'
import { defineRule } from '../contract/rule.ts'
import { Band, judgeBand, limitsOf, unfitPercent } from '../judging/band.ts'
import { unmeasured } from '../judging/unmeasured.ts'
import { ERROR_NOTE } from '../judging/within-error.ts'

export const eyeLine = defineRule({
  id: 'eye-line',
  severity: 'picture',
  dependsOn: 'crop',
  text: {
    title: 'Height of the eyes in the frame',
    measures: `The mean height of the two irises, in percent of the frame height from the top edge. ${ERROR_NOTE}`,
    why: 'With the eyes at one height, a row of portraits looks as if made in one sitting.',
    fix: 'Move the crop up or down; the headroom changes with it.',
    example: 'eye-line: { min: 33, max: 42 }',
  },
  options: Band,
  needs: ['background', 'face', 'head'],
  problem: (band) => unfitPercent(limitsOf(band)),
  framing: (band) => ({ 'eye-line': limitsOf(band) }),
  judge({ measured }, band) {
    const { face, head, heightPx } = measured
    if (!face || !head || !heightPx) return unmeasured(measured, 'The eye line')
    return judgeBand({
      noun: 'The eye line',
      unit: ' % of the frame height below the top edge',
      shortUnit: ' %',
      value: head.eyeLinePct,
      error: head.eyeLineErrorPct,
      limits: limitsOf(band),
      // Only the eyes matter here: the head's confidence also covers the crown, which may be lost on white.
      confidence: face.confidence,
      doubts: face.doubts,
      low: (by) => `The eyes sit too high in the frame: move the crop up by ${pixels(by, heightPx)}.`,
      high: (by) => `The eyes sit too low in the frame: move the crop down by ${pixels(by, heightPx)}.`,
    })
  },
})
