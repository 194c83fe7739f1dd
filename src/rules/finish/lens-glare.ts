import { Type } from '@sinclair/typebox'
import { SURE } from '../../measure/schema/confidence.ts'
import {
  LENS_GLARE_LEAST_EYE_DISTANCE_PX,
  LENS_GLARE_MOST_NOD_DEG,
  LENS_GLARE_MOST_TURN_DEG,
} from '../../measure/schema/gates.ts'
import type { EyeGlare, Finish, Measurements, Spectacles } from '../../measure/schema/measurements.ts'
import { type Limits, sideOf } from '../../numbers/limits.ts'
import { quantity } from '../../text/quantity.ts'
import { sizeText } from '../../text/size.ts'
import { defineRule } from '../contract/rule.ts'
import { bandText, limitsOf } from '../judging/band.ts'
import { judgeLimits } from '../judging/judge-limits.ts'
import { skipped, unmeasured } from '../judging/unmeasured.ts'

export const lensGlare = defineRule({
  id: 'lens-glare',
  severity: 'picture',
  dependsOn: 'scene',
  text: {
    title: 'Reflections on glasses',
    measures: `First whether glasses are worn: a line over the nose (the bridge) and one under each eye (the rims), which bare skin doesn't have; without them the rule is skipped. Then, at each eye, the share of what a lens covers (from below the brow to the cheekbone) that shows a reflected light: paler than the skin around it, or outshining it. Catchlights (one or two lights, together under a quarter of the iris), the white of the eye, light skin and rims do not count. The worse eye is judged. On drawn sitters of ten skin tones and on photographs with drawn glasses, every reflection of a tenth of a lens or more that was judged read over 3 %, and none with catchlights alone over 1.5 %; of reflections of a twentieth of a lens, two in five were missed. Unsure: pictures in gray, colored light, dark lenses, eyes less than ${LENS_GLARE_LEAST_EYE_DISTANCE_PX} px apart, faces turned by more than ${LENS_GLARE_MOST_TURN_DEG}° or nodded by more than ${LENS_GLARE_MOST_NOD_DEG}°, glare where it is not clear whether glasses are worn, and pale color on the upper lids of both eyes (make-up or a weak reflection). 3 % is a good limit.`,
    why: 'A reflection on a lens hides the eye, where everyone looks first.',
    fix: 'Have the sitter lower the chin, lift the temples of the glasses a little, or raise the light, and shoot again; or take the eye from a frame without glasses in the same head position.',
    example: 'lens-glare: { max: 3 }',
  },
  options: Type.Object(
    {
      max: Type.Number({
        minimum: 0,
        maximum: 100,
        description: 'Largest share of the eye region under reflected light, in percent. 3 is a good limit.',
      }),
    },
    { additionalProperties: false, description: 'How much of an eye lens glare may hide, in percent.' },
  ),
  needs: ['face', 'finish'],
  judge({ measured }, options) {
    const { finish } = measured
    if (!finish) return unmeasured(measured, 'Lens glare')
    if (isWithoutSpectacles(finish))
      return skipped('No spectacles: nothing that could reflect a light is worn before the eyes.')
    const { left, right } = finish.lensGlare
    const limits = limitsOf(options)
    const { confidence, doubts } = surenessOf(finish, limits)
    const asked = bandText(limits, ' %')
    const fix = () =>
      'Lower the chin or raise the light and shoot again, or take the eye from a frame without glasses in the same head position.'
    return judgeLimits({
      noun: 'Lens glare',
      value: finish.lensGlarePct,
      limits,
      confidence,
      doubts,
      found: (value) => {
        const short = quantity(value, ' %', limits)
        const places = [placeOf('left', left, measured), placeOf('right', right, measured)].flatMap(
          (place) => place ?? [],
        )
        const where = places.length > 0 ? ` (${places.join('; ')})` : ''
        return { short, long: `Lens glare covers ${short} of an eye${where}` }
      },
      asked: { short: asked, long: asked },
      low: fix,
      high: fix,
    })
  },
})

function isWithoutSpectacles({ spectacles }: Finish): boolean {
  return spectacles.worn === false && spectacles.confidence >= SURE
}

/** What looks like glare is only as sure as the spectacles are; where there is none, they don't matter. */
function surenessOf(
  { spectacles, lensGlare, lensGlarePct }: Finish,
  limits: Limits,
): Pick<Spectacles, 'confidence' | 'doubts'> {
  if (lensGlarePct === null || sideOf(lensGlarePct, limits) === 'inside') return lensGlare
  return {
    confidence: Math.min(lensGlare.confidence, spectacles.confidence),
    doubts: [...new Set([...lensGlare.doubts, ...spectacles.doubts])],
  }
}

/** Where and how large: "at the right eye in the frame: 90 x 60 px, 1210 px from the left and 980 px from the top". */
function placeOf(
  side: 'left' | 'right',
  eye: EyeGlare | null,
  { widthPx, heightPx }: Measurements,
): string | null {
  if (!eye?.box || !widthPx || !heightPx) return null
  const { x, y, width, height } = eye.box
  const px = (share: number, edge: number) => Math.round(share * edge)
  return `${side} eye in the frame: ${sizeText({ widthPx: px(width, widthPx), heightPx: px(height, heightPx) })}, ${px(x, widthPx)} px from the left and ${px(y, heightPx)} px from the top`
}
