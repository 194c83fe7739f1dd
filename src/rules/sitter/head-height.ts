import { defineRule } from '../contract/rule.ts'
import { Band, judgeBand, limitsOf, unfitPercent } from '../judging/band.ts'
import { unmeasured } from '../judging/unmeasured.ts'
import { ERROR_NOTE } from '../judging/within-error.ts'

/** Rounding of the divisions, which must not cost or add a pixel, px. @choice far above double precision, far below a pixel. */
const ROUNDING_PX = 1e-6

export const headHeight = defineRule({
  id: 'head-height',
  severity: 'picture',
  dependsOn: 'crop',
  text: {
    title: 'Size of the head in the frame',
    measures: `Crown to chin along the axis of the face, projected onto the vertical, in percent of the frame height. Hair and headwear count, a beard does not. ${ERROR_NOTE}`,
    why: 'Heads of one size make portraits from different days look like one set.',
    fix: 'Crop tighter or wider around the head, keeping the aspect ratio, then resize to the ordered pixels.',
    example: 'head-height: { min: 42, max: 50 }',
  },
  options: Band,
  needs: ['background', 'face', 'head'],
  problem: (band) => unfitPercent(limitsOf(band)),
  framing: (band) => ({ 'head-height': limitsOf(band) }),
  judge({ measured }, band) {
    const { head, heightPx } = measured
    if (!head || !heightPx) return unmeasured(measured, 'The head height')
    const limits = limitsOf(band)
    const headPx = ((head.headHeightPct ?? 0) / 100) * heightPx
    const frameFor = (pct: number) => headPx / (pct / 100)
    return judgeBand({
      noun: 'The head height',
      unit: ' % of the frame height',
      shortUnit: ' %',
      value: head.headHeightPct,
      error: head.headHeightErrorPct,
      limits,
      confidence: head.confidence,
      doubts: head.doubts,
      low: () =>
        `The head is too small in the frame: crop tighter, to at most ${Math.floor(frameFor(limits.min) + ROUNDING_PX)} px of the ${heightPx} px height, then resize.`,
      high: () =>
        limits.max > 0
          ? `The head is too large in the frame: crop wider from the original, to a height of at least ${Math.ceil(frameFor(limits.max) - ROUNDING_PX)} px where this frame has ${heightPx} px, then resize.`
          : 'The head is too large in the frame: crop wider from the original.',
    })
  },
})
