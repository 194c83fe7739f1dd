import { Type } from '@sinclair/typebox'
import { defineRule } from '../contract/rule.ts'
import { judgeBand, limitsOf } from '../judging/band.ts'
import { unmeasured } from '../judging/unmeasured.ts'

export const backgroundUnevenness = defineRule({
  id: 'background-unevenness',
  severity: 'picture',
  dependsOn: 'scene',
  text: {
    title: 'Uneven light on the backdrop',
    measures:
      'The spread of CIE L* (D50) over the backdrop: the 95th minus the 5th percentile, with noise smoothed out; gradients and shadows count. For scale: a falloff of 1/3 stop from an sRGB value of 230 is 7.95 L*, of 1/10 stop 2.45 L* (IEC 61966-2-1, CIE 15).',
    why: 'Shadows and falloff on the backdrop show that portraits were made in different places.',
    fix: 'Light the backdrop from both sides or move the sitter away from it; in retouching, flatten the gradient.',
    example: 'background-unevenness: { max: 4 }',
  },
  options: Type.Object(
    {
      max: Type.Number({
        minimum: 0,
        description: 'Largest spread in L*. A falloff of 1/3 stop from an sRGB value of 230 is 7.95 L*.',
      }),
    },
    { additionalProperties: false, description: 'How uneven the backdrop may be, in L*.' },
  ),
  needs: ['background'],
  judge({ measured }, options) {
    const { background } = measured
    if (!background) return unmeasured(measured, 'The unevenness of the backdrop')
    const fix = () =>
      "Light the backdrop evenly (one light from each side, the sitter's shadow off it), or flatten the gradient in retouching."
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
