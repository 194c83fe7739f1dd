import { pixels } from '../../text/quantity.ts'
import { defineRule } from '../contract/rule.ts'
import { Band, emptyRange, judgeBand, limitsOf } from '../judging/band.ts'
import { unmeasured } from '../judging/unmeasured.ts'

export const headroom = defineRule({
  id: 'headroom',
  text: {
    title: 'Space above the head',
    measures:
      'The distance from the top edge of the frame to the crown, in percent of the frame height. The crown is the highest point of the head, including hair and headwear but not single flyaway strands.',
    why: 'Side by side on a page, heads at different heights are the first thing a visitor notices.',
    fix: 'Move the crop; if the uncropped frame has no room above the hair, extend the backdrop or choose another frame.',
    example: 'headroom: { min: 6, max: 12 }',
  },
  options: Band,
  needs: ['background', 'face', 'head'],
  problem: (band) => emptyRange(limitsOf(band)),
  framing: (band) => ({ headroom: limitsOf(band) }),
  judge({ measured }, band) {
    const { head, heightPx } = measured
    if (!head || !heightPx) return unmeasured(measured, 'Headroom')
    return judgeBand({
      noun: 'Headroom',
      unit: ' % of the frame height',
      shortUnit: ' %',
      value: head.headroomPct,
      limits: limitsOf(band),
      confidence: head.confidence,
      doubts: head.doubts,
      low: (by) => `Leave more space above the hair: move the crop up by ${pixels(by, heightPx)}.`,
      high: (by) => `Leave less space above the hair: move the crop down by ${pixels(by, heightPx)}.`,
    })
  },
})
