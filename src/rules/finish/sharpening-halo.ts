import { Type } from '@sinclair/typebox'
import { HALO_LEAST_EYE_DISTANCE_PX } from '../../measure/schema/gates.ts'
import type { Doubt } from '../../measure/schema/measurements.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { judgeBand } from '../judging/band.ts'
import { unmeasured } from '../judging/unmeasured.ts'

export const sharpeningHalo = defineRule({
  id: 'sharpening-halo',
  severity: 'picture',
  dependsOn: 'export',
  text: {
    title: 'Halos from sharpening',
    measures: `How high light and dark halos stand beside the strong edges at the eyes (lashes, lids, the rim of the iris), in percent of the height of the edge. Lashes and the rims of the lids count as low halos in every portrait: studio portraits that were hardly sharpened have 11 to 22 %, the same at half their size up to 25 %. Grain counts, too: on 37 of these, grain of 3 codes (standard deviation of luma) added 2 to 8 points, grain of 5 codes 6 to 22; where what grain may add decides, the rule is unsure. With less than ${HALO_LEAST_EYE_DISTANCE_PX} pixels between the eyes it is not measured.`,
    why: 'Halos look hard and cheap, show on screens and in print alike, and grow with every further sharpening.',
    fix: 'Export again with less sharpening: a lower amount or a smaller radius. Blurring a sharpened file does not bring back what was there.',
    example: 'sharpening-halo: { max: 25 }',
  },
  options: Type.Object(
    {
      max: Type.Number({
        exclusiveMinimum: 0,
        description: 'Largest height of the halos, in percent of the height of the edges.',
      }),
    },
    { additionalProperties: false, description: 'How high halos may be.' },
  ),
  needs: ['face', 'finish', 'focus', 'halo'],
  judge({ measured }, { max }): Finding {
    const focus = measured.finish?.focus
    if (!focus) return unmeasured(measured, 'The height of halos')
    const { haloPct, haloOfGrainPct, confidence } = focus
    const isOfGrain = haloPct !== null && haloPct > max && haloPct - (haloOfGrainPct ?? 0) <= max
    const doubts: Doubt[] = [...focus.doubts, ...(isOfGrain ? (['halos-of-grain'] as const) : [])]
    return judgeBand({
      noun: 'The height of the halos at the eyes',
      unit: ' % of that of the edges',
      shortUnit: ' %',
      value: haloPct,
      limits: { min: -Infinity, max },
      confidence: isOfGrain ? 0 : confidence,
      doubts: haloPct === null && doubts.length === 0 ? ['eyes-too-small-for-halos'] : doubts,
      low: () => '',
      high: () => 'Export it again from the master with less sharpening: a lower amount or a smaller radius.',
    })
  },
})
