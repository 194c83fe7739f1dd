import { Type } from '@sinclair/typebox'
import { FOCUS_EYE_DISTANCE_PX } from '../../measure/schema/finish.ts'
import { quantity } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { judgeBand } from '../judging/band.ts'
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
    max: Type.Number({
      exclusiveMinimum: 0,
      description: `Largest edge spread at the sharper eye, in px at an inter-eye distance of ${FOCUS_EYE_DISTANCE_PX} px.`,
    }),
    enlarged: Type.Optional(
      Type.Union([Type.Literal('unsure'), Type.Literal('allow')], {
        description:
          'The verdict on a picture that looks enlarged and would otherwise pass: unsure (the default), or allow it.',
      }),
    ),
  },
  {
    additionalProperties: false,
    title: '{ max }, and enlarged where an enlarged file is allowed',
    description: 'How sharp the eyes must be, and what to do with a picture that looks enlarged.',
  },
)

export const eyeFocus = defineRule({
  id: 'eye-focus',
  severity: 'picture',
  text: {
    title: 'Sharpness of the eyes',
    measures: `The blur of the edges of lids and iris at the sharper eye (edge spread): the standard deviation of the Gaussian that would blur a sharp edge this much, in pixels at an inter-eye distance of ${FOCUS_EYE_DISTANCE_PX} pixels, so that files of all sizes compare. Grain and sharpening halos hardly change it. An eye behind reflections on a lens is not read. A picture whose finest edges at the eyes are wider than ${PIXEL_SHARP} pixels of the file looks enlarged.`,
    why: 'Viewers look at the eyes first; a portrait with sharp ears and soft eyes is out of focus.',
    fix: 'Choose a frame of the same sitter with sharp eyes; sharpening does not restore detail. Export an enlarged file again from the original.',
    example: 'eye-focus: { max: 1.5 }',
  },
  options: Options,
  needs: ['face', 'finish', 'focus'],
  judge({ measured }, { max, enlarged = 'unsure' }): Finding {
    const { finish, face } = measured
    if (!finish?.focus || !face) return unmeasured(measured, 'Sharpness of the eyes')
    const { eyePx, finestEdgePx, sharperPlace, confidence, doubts } = finish.focus
    const finding = judgeBand({
      noun: 'The edge spread at the sharper eye',
      unit: ' px',
      value: eyePx,
      limits: { min: -Infinity, max },
      confidence,
      doubts,
      low: () => '',
      high: () =>
        sharperPlace
          ? `The focus is on the ${sharperPlace}: choose a frame with sharp eyes.`
          : 'Choose a frame with sharp eyes; sharpening does not restore detail.',
    })
    if (finestEdgePx === null) return finding
    if (finding.verdict === 'fail' && finestEdgePx <= PIXEL_SHARP) {
      const distance = quantity(face.eyeDistancePx ?? 0, ' px')
      return checkByEye(
        finding,
        `The eyes are as sharp as this file can show, but with ${distance} between the eyes it has too few pixels to tell whether the spec is met`,
      )
    }
    if (finding.verdict === 'pass' && finestEdgePx > PIXEL_SHARP && enlarged === 'unsure') {
      return checkByEye(
        finding,
        `The finest edges at the eyes are ${quantity(finestEdgePx, ' px', { min: -Infinity, max: PIXEL_SHARP })} wide in this file: it looks enlarged or slightly out of focus`,
      )
    }
    return finding
  },
})

function checkByEye({ measured, expected }: Finding, reason: string): Finding {
  return { verdict: 'unsure', measured, expected, reason: `${reason}; check by eye at 100 %.` }
}
