import { atLeast } from '../../text/quantity.ts'
import { defineRule } from '../contract/rule.ts'
import { Band, emptyRange, judgeBand, limitsOf } from '../judging/band.ts'
import { stopsBetween, stopText } from '../judging/stops.ts'
import { unmeasured } from '../judging/unmeasured.ts'

/** L* from which on white is clipped: how much light there was beyond it isn't known. @choice half a code of 8 bits under the top */
const CLIPPED = 99.8

/** L* of white, beyond which a limit asks nothing. @source CIE 15:2004, ISO 11664-4: that of the white that all is held against */
const WHITE = 100

export const backgroundLightness = defineRule({
  id: 'background-lightness',
  severity: 'picture',
  dependsOn: 'scene',
  text: {
    title: 'Lightness of the backdrop',
    measures:
      'The median CIE L* (D50 white, color-managed) of the backdrop without hair edges. 0 is black and 100 is white; a neutral sRGB value of 240 is L* 94.8, and 128 is L* 53.6.',
    why: 'A backdrop that is lighter or darker than its neighbors stands out on the page before the face does.',
    fix: 'Put more or less light on the backdrop, or move the sitter away from it; in retouching, lighten or darken the backdrop alone.',
    example: 'background-lightness: { target: 96, tolerance: 2.5 }',
  },
  options: Band,
  needs: ['background'],
  problem: (band) => emptyRange(limitsOf(band)),
  judge({ measured }, band) {
    const { background } = measured
    if (!background) return unmeasured(measured, 'The backdrop')
    const { lightnessL } = background
    const { min, max } = limitsOf(band)
    const limits = { min, max: max < WHITE ? max : Number.POSITIVE_INFINITY }
    const about = lightnessL >= CLIPPED ? 'at least' : 'about'
    const stops = (to: number) => `${about} ${stopText(atLeast(Math.abs(stopsBetween(lightnessL, to)), ''))}`
    return judgeBand({
      noun: 'The lightness of the backdrop',
      unit: ' L*',
      value: lightnessL,
      limits,
      confidence: background.confidence,
      doubts: background.doubts,
      low: () =>
        `The backdrop is too dark: give it ${stops(limits.min)} more light, or lighten it in retouching without touching the sitter.`,
      high: () =>
        `The backdrop is too light: give it ${stops(limits.max)} less light, or darken it in retouching without touching the sitter.`,
    })
  },
})
