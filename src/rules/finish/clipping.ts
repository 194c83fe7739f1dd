import { type Static, Type } from '@sinclair/typebox'
import { CLIPPED } from '../../measure/schema/finish.ts'
import type { Finish, SkinPart } from '../../measure/schema/measurements.ts'
import { capitalized } from '../../text/capitalized.ts'
import { quantity } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { bandText, limitsOf } from '../judging/band.ts'
import { combined } from '../judging/combined.ts'
import { judgeLimits } from '../judging/judge-limits.ts'
import { unmeasured } from '../judging/unmeasured.ts'

const closed = { additionalProperties: false }
const Share = (what: string) =>
  Type.Object(
    {
      max: Type.Number({ minimum: 0, maximum: 100, description: `Largest share of ${what}, in percent.` }),
    },
    closed,
  )

const Options = Type.Object(
  {
    highlights: Type.Optional(Share('face skin at the top of the scale')),
    shadows: Type.Optional(Share('skin of nose and cheeks at the bottom of the scale')),
  },
  {
    ...closed,
    minProperties: 1,
    description: 'How much of the face may be clipped: highlights, shadows, or both.',
  },
)

const PARTS: Record<SkinPart, string> = {
  forehead: 'forehead',
  'upper-forehead': 'upper forehead',
  nose: 'nose',
  'left-cheek': 'cheek on the left of the frame',
  'right-cheek': 'cheek on the right of the frame',
  'left-cheekbone': 'cheekbone on the left of the frame',
  'right-cheekbone': 'cheekbone on the right of the frame',
  chin: 'chin',
}

export const clipping = defineRule({
  id: 'clipping',
  severity: 'picture',
  dependsOn: 'scene',
  text: {
    title: 'Clipped highlights and shadows on skin',
    measures: `The share of bare facial skin (lower forehead, nose, both cheeks; upper forehead, cheekbones and chin where their color shows that they are bare; not eyes, brows, lips, nostrils or lenses) with a red, green or blue value at the top of the scale (${CLIPPED.high} or 255), and of nose and cheeks at the bottom (0 or ${CLIPPED.low}). Measured at full size in sRGB; colors outside sRGB count as clipped. Shadows are not measured on the forehead, where bangs fall. ANSI/NIST-ITL 1-2011 Update 2013, Annex E.3.6, asks for no saturation on facial skin.`,
    why: 'Clipped skin looks greasy or blotched, and no retouch can restore the missing detail.',
    fix: 'Develop the raw file again with less exposure or recovered highlights; detail missing from the file can only be painted in.',
    example: 'clipping: { highlights: { max: 1 }, shadows: { max: 1 } }',
  },
  options: Options,
  needs: ['face', 'finish'],
  judge({ measured }, { highlights, shadows }) {
    const { finish } = measured
    if (!finish) return unmeasured(measured, 'Clipping')
    return combined([
      ...(highlights ? [judgeHighlights(finish, highlights)] : []),
      ...(shadows ? [judgeShadows(finish, shadows)] : []),
    ])
  },
})

type Share = Static<ReturnType<typeof Share>>

function judgeHighlights({ clippedHighlightPct, clipping }: Finish, share: Share): Finding {
  return judgeShare(
    'highlights',
    clippedHighlightPct,
    share,
    clipping,
    clipping.highlightPart,
    (where) =>
      `Develop the raw file again with less exposure or with the highlights recovered${where}; powder and a larger light help at the next sitting.`,
  )
}

function judgeShadows({ clippedShadowPct, clipping }: Finish, share: Share): Finding {
  return judgeShare(
    'shadows',
    clippedShadowPct,
    share,
    clipping,
    clipping.shadowPart,
    (where) =>
      `Develop the raw file again with the shadows lifted${where}; a reflector on the dark side helps at the next sitting.`,
  )
}

function judgeShare(
  end: 'highlights' | 'shadows',
  value: number | null,
  share: Share,
  { confidence, doubts }: Finish['clipping'],
  part: SkinPart | null,
  fix: (where: string) => string,
): Finding {
  const limits = limitsOf(share)
  const asked = `${bandText(limits, ' %')} clipped ${end}`
  const worst = part ? `, mostly on the ${PARTS[part]}` : ''
  const high = () => fix(part ? ` on the ${PARTS[part]}` : '')
  return judgeLimits({
    noun: `Clipping of the ${end}`,
    value,
    limits,
    confidence,
    doubts,
    found: (pct) => {
      const number = quantity(pct, ' %', limits)
      return {
        short: `${number} clipped ${end}`,
        long: `${capitalized(end)} are clipped on ${number} of the facial skin${pct > 0 ? worst : ''}`,
      }
    },
    asked: { short: asked, long: asked },
    low: high,
    high,
  })
}
