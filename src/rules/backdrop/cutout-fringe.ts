import { Type } from '@sinclair/typebox'
import { SURE } from '../../measure/schema/confidence.ts'
import { FRINGE_LEAST_EYE_DISTANCE_PX } from '../../measure/schema/gates.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { judgeBand } from '../judging/band.ts'
import { unmeasured } from '../judging/unmeasured.ts'

export const cutoutFringe = defineRule({
  id: 'cutout-fringe',
  severity: 'picture',
  dependsOn: 'export',
  text: {
    title: 'Fringe of a cut-out',
    measures: `The share of the outline of head and shoulders along which a thin line of one color is lighter, or darker, than both the backdrop and the sitter beside it (by more than 6 L*): what a mask leaves when a sitter is put before another backdrop. Portraits that were not cut out have up to 26 %, from rims of cloth and light in hair, and up to 39 % when they are sharpened far too much (2 px, 200 %); with a light or dark fringe 1 to 4 pixels wide around hair and shoulders it is 42 to 98 % (112 of 113 composites). A fringe that is neither lighter nor darker than both and cut-off hair are not measured; for holes there is cutout-holes. With less than ${FRINGE_LEAST_EYE_DISTANCE_PX} pixels between the eyes, or before a backdrop that is not plain, it is unsure.`,
    why: 'A line around the hair gives the cut-out away, and one among real backdrops breaks the set.',
    fix: 'Cut the sitter out anew: pull the mask in by a pixel or two, take the old color out of its edge, and paint the hair by hand.',
    example: 'cutout-fringe: { max: 40 }',
  },
  options: Type.Object(
    {
      max: Type.Number({
        exclusiveMinimum: 0,
        exclusiveMaximum: 100,
        description: 'Largest share of the outline that may have a fringe, in percent.',
      }),
    },
    { additionalProperties: false, description: 'How much of the outline may have a fringe.' },
  ),
  needs: ['background', 'cutout', 'face'],
  judge({ measured }, { max }): Finding {
    const { background, face } = measured
    if (!background) return unmeasured(measured, 'The fringe of a cut-out')
    const { fringe, confidence, doubts } = background
    const { outlinePct = null, tone = null, contrastL = null } = fringe ?? {}
    const line =
      tone && contrastL !== null
        ? ` with a ${tone} fringe (by ${Math.round(contrastL)} L*)`
        : ' with a fringe'
    return judgeBand({
      noun: `The share of the sitter's outline${line}`,
      unit: ' %',
      value: outlinePct,
      limits: { min: -Infinity, max },
      confidence: outlinePct === null ? 0 : confidence,
      doubts:
        outlinePct === null && confidence >= SURE ? [face?.box ? 'outline-too-small' : 'no-face'] : doubts,
      low: () => '',
      high: () =>
        'Cut the sitter out anew: pull the mask in by a pixel or two and take the old color out of its edge.',
    })
  },
})
