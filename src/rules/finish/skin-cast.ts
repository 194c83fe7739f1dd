import { Type } from '@sinclair/typebox'
import { SURE } from '../../measure/schema/confidence.ts'
import type { Measurements, SkinTint } from '../../measure/schema/measurements.ts'
import { sideOf } from '../../numbers/limits.ts'
import { quantity } from '../../text/quantity.ts'
import { hueWord, oppositeHue } from '../backdrop/hue.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { doubtSentence } from '../judging/doubts.ts'
import { judgeLimits } from '../judging/judge-limits.ts'
import { SKIN_HUE_DEG, skinCastOf } from '../judging/skin-locus.ts'
import { skipped, unmeasured } from '../judging/unmeasured.ts'
import { isColorless } from '../judging/unseen.ts'

/** Chroma up to which a backdrop tells that light and balance are neutral, C*ab. @choice what `background-tint` gives as its example; 2 is barely visible */
const NEUTRAL = 3

/** Degrees in a turn. @choice definition. */
const TURN_DEG = 360

const { min, max } = SKIN_HUE_DEG
const ASKED = `a hue of ${min} to ${max}°`

export const skinCast = defineRule({
  id: 'skin-cast',
  severity: 'picture',
  dependsOn: 'scene',
  text: {
    title: 'Color cast on skin',
    measures: `The CIELAB (D50) hue of bare skin: the median of forehead, cheeks and cheekbones, without shine and shade. In white light skin of every tone has a hue of ${min} to ${max}°, from pinkish to yellowish red; how dark it is and how much chroma it has are not judged. Beside a backdrop that reads neutral (C* up to ${NEUTRAL}), any other hue is a cast. Unsure where the backdrop is colored or not plain, since the light may have been, and where parts of the face disagree. Skipped in black and white. Only strong casts leave this range; weaker ones stand out from the set (see set-match).`,
    why: 'Skin that leans blue, green or magenta looks ill, and the portraits beside it show how it should look.',
    fix: 'Correct the white balance on skin; if the backdrop is neutral already, look for a mask or a preset that touched skin alone.',
    example: 'skin-cast: true',
  },
  options: Type.Literal(true, { description: 'Skin must have a hue that skin has in white light.' }),
  needs: ['background', 'face', 'finish'],
  judge({ measured }) {
    const { finish } = measured
    if (!finish) return unmeasured(measured, 'The hue of skin')
    if (isColorless(measured)) return skipped('The picture is in black and white.')
    const finding = judgeHue(finish.skinTint)
    return finding.verdict === 'fail' ? besideBackdrop(finding, measured) : finding
  },
})

function judgeHue({ lab, hueDeg, hueErrorDeg, confidence, doubts }: SkinTint): Finding {
  const value = hueDeg === null ? null : aroundSkin(hueDeg)
  const away = lab ? skinCastOf(lab) : { a: 0, b: 0 }
  const castDeg = (Math.atan2(away.b, away.a) * TURN_DEG) / (2 * Math.PI)
  const fix = () =>
    `Balance skin toward ${oppositeHue(castDeg)}; the backdrop is neutral already, so look for a mask or a preset that touched skin alone.`
  const degrees = (hue: number) => quantity((hue + TURN_DEG) % TURN_DEG, '')
  return judgeLimits({
    noun: 'The hue of skin',
    value,
    limits: SKIN_HUE_DEG,
    confidence,
    doubts,
    found: (hue) => {
      const isSkin = sideOf(hue, SKIN_HUE_DEG) === 'inside'
      return {
        short: `hue ${degrees(hue)}°`,
        long: `Skin has a hue of ${degrees(hue)}°${isSkin ? '' : `, a cast toward ${hueWord(castDeg)}`}`,
      }
    },
    uncertainty: {
      error: hueErrorDeg ?? 0,
      unit: '°',
      between: (from, to) => `The hue of skin is between ${degrees(from)} and ${degrees(to)}°`,
    },
    asked: { short: ASKED, long: `${ASKED}, which skin of every tone has in white light` },
    low: fix,
    high: fix,
  })
}

/** What the backdrop tells of the light in which skin has such a hue. */
function besideBackdrop(finding: Finding, { background }: Measurements): Finding {
  const isSure = background && background.confidence >= SURE
  if (isSure && background.chromaC <= NEUTRAL) return finding
  const { fix: _, ...rest } = finding
  const light = isSure
    ? `The backdrop has a tint, too (${quantity(background.chromaC, ' C*')} toward ${hueWord(background.hueDeg)}), so the light or the white balance of the whole picture may be off`
    : `The backdrop doesn't tell the color of the light: ${doubtSentence(background?.doubts ?? [])}`
  return { ...rest, verdict: 'unsure', reason: `${finding.reason} ${light}; check by eye.` }
}

/** A hue as degrees on both sides of those of skin, so that pink and blue are below them and green is above. */
function aroundSkin(hueDeg: number): number {
  return hueDeg > (min + max) / 2 + TURN_DEG / 2 ? hueDeg - TURN_DEG : hueDeg
}
