import { type Limits, sideOf } from '../../numbers/limits.ts'
import { pixels } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { Band, bandText, judgeBand, limitsOf, unfitPercent } from '../judging/band.ts'
import { unmeasured } from '../judging/unmeasured.ts'
import { isHeadCut } from '../judging/unseen.ts'
import { ERROR_NOTE } from '../judging/within-error.ts'

export const headroom = defineRule({
  id: 'headroom',
  severity: 'picture',
  dependsOn: 'crop',
  text: {
    title: 'Space above the head',
    measures: `The distance from the top edge of the frame to the crown, in percent of the frame height. The crown is where the hair has body: a single lock, a wisp or a strand does not count; headwear does. Before a plain backdrop the outline of the hair and a network that tells people from what is behind them must agree on it; before a place, two readings of that network. Its error, which grows the farther they are apart, is told in the JSON; where it is large the verdict is unsure. A head that the top edge cuts or touches has no headroom: it fails where the minimum is above 0. ${ERROR_NOTE}`,
    why: 'Side by side on a page, heads at different heights are the first thing a visitor notices.',
    fix: 'Move the crop; if the uncropped frame has no room above the hair, extend the backdrop or choose another frame.',
    example: 'headroom: { min: 6, max: 12 }',
  },
  options: Band,
  needs: ['background', 'face', 'head'],
  problem: (band) => unfitPercent(limitsOf(band)),
  framing: (band) => ({ headroom: limitsOf(band) }),
  judge({ measured }, band) {
    const { head, heightPx } = measured
    if (!head || !heightPx) return unmeasured(measured, 'Headroom')
    const limits = limitsOf(band)
    // How much of the head is cut off is unknown; that it has less than is asked is not.
    if (isHeadCut(measured) && sideOf(head.headroomPct ?? 0, limits) === 'low') return cut(limits)
    return judgeBand({
      noun: 'Headroom',
      unit: ' % of the frame height',
      shortUnit: ' %',
      value: head.headroomPct,
      error: head.crownErrorPct,
      limits,
      confidence: head.confidence,
      doubts: head.doubts,
      low: (by) => `Leave more space above the hair: move the crop up by ${pixels(by, heightPx)}.`,
      high: (by) => `Leave less space above the hair: move the crop down by ${pixels(by, heightPx)}.`,
    })
  },
})

function cut(limits: Limits): Finding {
  const expected = bandText(limits, ' %')
  return {
    verdict: 'fail',
    measured: 'none: the head is cut',
    expected,
    reason: `The top edge of the frame cuts the head or touches it, so there is no headroom; the spec asks for ${expected}.`,
    fix: `Go back to the uncropped frame and crop it anew, with the whole head and ${expected} of the frame height above it; if the head is cut there too, choose another frame.`,
  }
}
