import { Type } from '@sinclair/typebox'
import { judgeBand } from './band.ts'
import type { Finding } from './outcome.ts'
import { quantity } from './quantity.ts'
import { defineRule } from './rule.ts'
import { unmeasured } from './unmeasured.ts'

// A spread of so few pixels of the file is as sharp as its pixels can show, whatever it is at the eye distance asked for.
const PIXEL_SHARP = 0.7
// A delivered picture has finer edges than this, in pixels of the file; one that was enlarged has not. Cubic and
// Lanczos enlargement to twice the size leave 0.92 to 1.6 (measured on drawn and real eyes).
const ENLARGED = 0.9

const Options = Type.Object(
  {
    max: Type.Number({
      exclusiveMinimum: 0,
      description: 'Largest edge spread at the sharper eye, in px at an inter-eye distance of 240 px.',
    }),
    enlarged: Type.Optional(
      Type.Union([Type.Literal('look'), Type.Literal('allow')], {
        description:
          'What to do with a picture that looks enlarged: have a person look (look, the default) or allow it.',
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
  text: {
    title: 'Sharpness of the eyes',
    measures:
      'The blur of the edges at the lids and the iris of the sharper eye: the standard deviation of the Gaussian that would blur a sharp edge into them, in pixels at an inter-eye distance of 240 pixels, so that files of different sizes compare. Grain and sharpening halos hardly change it. A picture whose finest edges at the eyes are wider than 0.9 pixels of the file looks enlarged.',
    why: 'A viewer looks at the eyes first; a portrait with sharp ears and soft eyes was focused wrong.',
    mend: 'Choose a frame of the same sitter in which the eyes are sharp. Sharpening does not bring detail back. An enlarged file is to be exported again from the original.',
    example: 'eye-focus: { max: 1.5 }',
  },
  options: Options,
  needs: ['face', 'finish', 'focus'],
  judge({ measured }, { max, enlarged = 'look' }): Finding {
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
          ? `The focus lies on the ${sharperPlace}: choose a frame in which the eyes are sharp.`
          : 'Choose a frame in which the eyes are sharp; sharpening does not bring detail back.',
    })
    if (finestEdgePx === null) return finding
    if (finding.verdict === 'fail' && finestEdgePx <= PIXEL_SHARP) {
      const distance = quantity(face.eyeDistancePx ?? 0, ' px')
      return look(
        finding,
        `The eyes are as sharp as the pixels of this file can show, with an inter-eye distance of ${distance}; too few to tell whether the spec is met`,
      )
    }
    if (finding.verdict === 'pass' && finestEdgePx > ENLARGED && enlarged === 'look') {
      return look(
        finding,
        `The finest edges at the eyes are ${quantity(finestEdgePx, ' px', { min: -Infinity, max: ENLARGED })} wide in this file: it looks enlarged, or is a little out of focus`,
      )
    }
    return finding
  },
})

function look({ measured, expected }: Finding, reason: string): Finding {
  return { verdict: 'unsure', measured, expected, reason: `${reason}; have a person look at 100 %.` }
}
