import { Type } from '@sinclair/typebox'
import { defineRule } from '../contract/rule.ts'
import { judgeBand, limitsOf } from '../judging/band.ts'
import { unmeasured } from '../judging/unmeasured.ts'

export const backgroundUnevenness = defineRule({
  id: 'background-unevenness',
  text: {
    title: 'Evenness of the light on the backdrop',
    measures:
      'The spread of CIE L* (D50) over the backdrop: its 95th less its 5th percentile, after noise is smoothed away; gradients and shadows stay. For scale: a fall-off of 1/3 stop from an sRGB code of 230 is 7.95 L*, of 1/10 stop 2.45 L* (IEC 61966-2-1, CIE 15).',
    why: 'Shadows and fall-off on the backdrop give away that portraits were made in different places.',
    fix: 'Light the backdrop from both sides or move the sitter away from it; in the retouch, flatten the gradient.',
    example: 'background-unevenness: { max: 4 }',
  },
  options: Type.Object(
    {
      max: Type.Number({
        minimum: 0,
        description: 'Largest spread in L*. 1/3 stop of fall-off from sRGB code 230 is 7.95 L*.',
      }),
    },
    { additionalProperties: false, description: 'How uneven the backdrop may be, in L*.' },
  ),
  needs: ['background'],
  judge({ measured }, options) {
    const { background } = measured
    if (!background) return unmeasured(measured, 'The evenness of the backdrop')
    const fix = () =>
      "Light the backdrop evenly (a light from either side, the sitter's shadow off it), or flatten the gradient in the retouch."
    return judgeBand({
      noun: 'The spread of lightness over the backdrop',
      unit: ' L*',
      value: background.unevennessL,
      limits: limitsOf(options),
      confidence: background.confidence,
      doubts: background.doubts,
      low: fix,
      high: fix,
    })
  },
})
