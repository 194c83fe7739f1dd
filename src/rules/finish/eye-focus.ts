import { Type } from '@sinclair/typebox'
import { FOCUS_EYE_DISTANCE_PX } from '../../measure/schema/finish.ts'
import { quantity } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { emptyRange, judgeBand } from '../judging/band.ts'
import { unmeasured } from '../judging/unmeasured.ts'

/**
 * Widest edge spread that is as sharp as pixels show, px of the file: whatever it is at the eye distance asked for, more could not
 * be seen.
 * @tuned on drawn and photographed eyes: as they are 0.3 to 0.7, made half as large by a cubic, Lanczos or Mitchell filter 0.3 to
 * 0.66, made twice as large by a cubic or Lanczos filter 0.7 to 1.2.
 */
const PIXEL_SHARP = 0.7

const Options = Type.Object(
  {
    min: Type.Optional(
      Type.Number({
        exclusiveMinimum: 0,
        description: `Least edge spread: edges that are sharper were sharpened too much. In px at an inter-eye distance of ${FOCUS_EYE_DISTANCE_PX} px.`,
      }),
    ),
    max: Type.Optional(
      Type.Number({
        exclusiveMinimum: 0,
        description: `Largest edge spread at the sharper eye, in px at an inter-eye distance of ${FOCUS_EYE_DISTANCE_PX} px.`,
      }),
    ),
  },
  {
    additionalProperties: false,
    minProperties: 1,
    title: '{ min, max }, or one of the two',
    description: 'How sharp the eyes must be, and how sharp at most.',
  },
)

export const eyeFocus = defineRule({
  id: 'eye-focus',
  severity: 'picture',
  dependsOn: 'scene',
  text: {
    title: 'Sharpness of the eyes',
    measures: `The blur of the edges of lids and iris at the sharper eye (edge spread): the standard deviation of the Gaussian that would blur a sharp edge this much, in pixels at an inter-eye distance of ${FOCUS_EYE_DISTANCE_PX} pixels, so that files of all sizes compare. Grain and sharpening halos hardly change it. Strong sharpening makes edges narrower than any lens draws them, which a minimum tells: as they came from the camera, the eyes of studio portraits with 170 to 235 pixels between them have 0.6 to 0.9 pixels. An eye behind reflections on a lens is not read.`,
    why: 'Viewers look at the eyes first; a portrait with sharp ears and soft eyes is out of focus.',
    fix: 'Choose a frame of the same sitter with sharp eyes; sharpening does not restore detail. Export what was sharpened too much again with less of it.',
    example: 'eye-focus: { max: 1.5 }',
  },
  options: Options,
  problem: ({ min = -Infinity, max = Infinity }) => emptyRange({ min, max }),
  needs: ['face', 'finish', 'focus'],
  judge({ measured }, { min = -Infinity, max = Infinity }): Finding {
    const { finish, face } = measured
    if (!finish?.focus || !face) return unmeasured(measured, 'Sharpness of the eyes')
    const { eyePx, finestEdgePx, sharperPlace, confidence, doubts } = finish.focus
    const finding = judgeBand({
      noun: 'The edge spread at the sharper eye',
      unit: ' px',
      value: eyePx,
      limits: { min, max },
      confidence,
      doubts,
      low: () => 'Export it again from the master with less sharpening: a lower amount or a smaller radius.',
      high: () =>
        sharperPlace
          ? `The focus is on the ${sharperPlace}: choose a frame with sharp eyes.`
          : 'Choose a frame with sharp eyes; sharpening does not restore detail.',
    })
    if (finestEdgePx === null) return finding
    if (finding.verdict === 'fail' && eyePx !== null && eyePx > max && finestEdgePx <= PIXEL_SHARP) {
      const distance = quantity(face.eyeDistancePx ?? 0, ' px')
      return checkByEye(
        finding,
        `The eyes are as sharp as this file can show, but with ${distance} between the eyes it has too few pixels to tell whether the spec is met`,
      )
    }
    return finding
  },
})

function checkByEye({ measured, expected }: Finding, reason: string): Finding {
  return { verdict: 'unsure', measured, expected, reason: `${reason}; check by eye at 100 %.` }
}
