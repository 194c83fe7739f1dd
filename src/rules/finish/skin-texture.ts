import { Type } from '@sinclair/typebox'
import { SKIN_TEXTURE_LEAST_EYE_DISTANCE_PX } from '../../measure/schema/gates.ts'
import type { Finish } from '../../measure/schema/measurements.ts'
import { quantity } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { judgeBand } from '../judging/band.ts'
import { textureInFocusPct } from '../judging/texture-in-focus.ts'
import { unmeasured } from '../judging/unmeasured.ts'

export const skinTexture = defineRule({
  id: 'skin-texture',
  severity: 'picture',
  dependsOn: 'export',
  text: {
    title: 'Fine texture of the skin',
    measures: `What the retouch left of the fine texture of the skin: the contrast of structures 1 to 3 mm wide on forehead, cheeks and cheekbones, in percent of the lightness, so that light and dark skin compare. Grain is taken out, and of the five parts the second smoothest counts, so that beards and hair have no say. Where grain is most of less than 0.2 %, the whole is told. Studio portraits before any retouch have 0.3 to 1.6 %; a blur of the skin by 5 pixels at an inter-eye distance of 240 leaves 0.1 %, one by 3 pixels 0.1 to 0.3 %. A blur of the whole picture takes texture, too: how much is told by the sharpness of the eyes, and where it accounts for what is missing, or the eyes can't be read, the rule is unsure. With less than ${SKIN_TEXTURE_LEAST_EYE_DISTANCE_PX} pixels between the eyes it is not measured.`,
    why: 'A retouch that wipes out the texture looks like plastic, and unlike the portraits beside it.',
    fix: 'Go back to the master and smooth the skin less: even out the tone, and keep the texture on a layer of its own. Added grain is no texture.',
    example: 'skin-texture: { min: 0.25 }',
  },
  options: Type.Object(
    {
      min: Type.Number({
        exclusiveMinimum: 0,
        description: 'Least contrast of the fine texture, in percent of the lightness.',
      }),
    },
    { additionalProperties: false, description: 'How much fine texture the retouch must leave.' },
  ),
  needs: ['face', 'finish', 'focus', 'texture'],
  judge({ measured }, { min }): Finding {
    const { finish } = measured
    if (!finish) return unmeasured(measured, 'The texture of the skin')
    const finding = judgeBand({
      noun: 'The contrast of the fine texture that the retouch left on the skin',
      unit: ' %',
      value: finish.skinTexturePct,
      limits: { min, max: Infinity },
      confidence: finish.texture.confidence,
      doubts: finish.texture.doubts,
      low: () => 'Go back to the master and smooth the skin less, so that its fine texture stays.',
      high: () => '',
    })
    return finding.verdict === 'fail' ? unlessSoft(finding, finish, min) : finding
  },
})

/** Whether the retouch or the focus took the texture: a person decides where the focus may have. */
function unlessSoft(finding: Finding, finish: Finish, min: number): Finding {
  const inFocus = textureInFocusPct(finish)
  if (inFocus !== null && inFocus < min) return finding
  const { fix: _, reason, ...rest } = finding
  const why =
    inFocus === null
      ? 'The sharpness of the eyes could not be read with confidence, so that a smoothed skin cannot be told from a soft picture'
      : `The whole picture is soft (edge spread at the eyes ${quantity(finish.eyeFocusPx ?? 0, ' px')}): in focus the skin would show about ${quantity(inFocus, ' %')}`
  return { ...rest, verdict: 'unsure', reason: `${reason} ${why}; check by eye at 100 %.` }
}
