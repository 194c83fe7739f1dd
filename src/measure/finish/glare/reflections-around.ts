import { linearLight } from '../../../color/transfer.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { brighter, common, countOf, open, union } from '../../../kernels/masks.ts'
import { palePixels } from '../../../kernels/tones.ts'
import { LIKE_WHITE } from './eye-levels.ts'
import type { EyePatch } from './eye-patch.ts'
import type { SkinColor } from './skin-color.ts'
import { thinRadius } from './thin-radius.ts'

/** Masks of what is reflected around an open eye. */
export interface ReflectionsAround {
  readonly all: Uint8Array
  /** The same without streaks as thin as rims, hairs and lashes. */
  readonly wide: Uint8Array
}

/**
 * Share of white in a pixel's light from which it counts as a reflection on a lens.
 * @tuned on drawn sitters of all ten Monk tones and 25 photographs: below it are wet lids and pale skin
 */
const LEAST_SHARE = 0.1
/**
 * How much paler than the palest quarter of the skin a spot must be.
 * @tuned on drawn sitters of all ten Monk tones and 25 photographs: lids and veins are paler by less
 */
const PALER = 1.15
/**
 * Floor on 1 - q, by which {@link specular} divides.
 * @tuned on drawn sitters of all ten Monk tones and 25 photographs: in skin nearer to white a share of white can't be measured
 */
const LEAST_CONTRAST = { green: 0.2, blue: 0.15 }
/**
 * Least luminance beside that of skin.
 * @tuned on drawn sitters of all ten Monk tones and 25 photographs: make-up and the shadow of a socket are as
 *   low in saturation, but darker
 */
const LEAST_OF_SKIN = 0.5
/**
 * How much brighter than the sitter's brightest skin a spot of its own color must be.
 * @tuned on drawn sitters of all ten Monk tones and 25 photographs, for warm lights
 */
const OUTSHINES = 1.9
/**
 * Least luminance of such a spot.
 * @tuned on drawn sitters of all ten Monk tones and 25 photographs: on dark skin less is no reflection yet
 */
const LEAST_BRIGHT = 0.5
/**
 * A crescent on the lids beside a reflection in the open eye counts from this share of the region.
 * @tuned on drawn sitters of all ten Monk tones and 25 photographs: a wet lid margin stays below it
 */
const LEAST_CRESCENT = 0.008

/**
 * @param usualWhite how bright the white of the eye mostly is
 * @param eyeDistance px
 */
export function reflectionsAround(
  picture: RgbPicture,
  patch: EyePatch,
  skin: SkinColor,
  usualWhite: number,
  eyeDistance: number,
): ReflectionsAround {
  const { around, opening, luminance, width, height } = patch
  const all = specular(picture, patch, skin)
  const radius = thinRadius(eyeDistance)
  // A wide reflection may lie on the open eye but for a thin crescent on the lids: thinness is judged on both together.
  const inEye = brighter(opening, luminance, LIKE_WHITE * usualWhite)
  const crescent = common(all, open(union(all, inEye), width, height, radius))
  if (countOf(crescent) > LEAST_CRESCENT * countOf(around)) return { all, wide: crescent }
  return { all, wide: open(all, width, height, radius) }
}

/** Linear light of each code. */
const LIGHT = Float32Array.from({ length: 256 }, (_, code) => linearLight(code))

/**
 * Mask of the pixels around the eye that are paler than skin, or far brighter. The part of a pixel's light that is not the skin's own: by
 * the dichromatic model a pixel is b (1, q) + s (1, 1), the light b on skin whose channel is q times its red, and a share s of white. Hence
 * channel - q red = s (1 - q).
 * @source Shafer, Color Research and Application 10(4), 1985
 */
function specular(picture: RgbPicture, patch: EyePatch, skin: SkinColor): Uint8Array {
  const [green, blue] = [PALER * skin.green, PALER * skin.blue]
  return palePixels(picture, patch, patch.around, patch.luminance, LIGHT, {
    ...{ green, blue },
    perGreen: 1 / Math.max(LEAST_CONTRAST.green, 1 - green),
    perBlue: 1 / Math.max(LEAST_CONTRAST.blue, 1 - blue),
    leastShare: LEAST_SHARE,
    leastPale: LEAST_OF_SKIN * skin.middle,
    leastBright: Math.max(LEAST_BRIGHT, OUTSHINES * skin.bright),
  })
}
