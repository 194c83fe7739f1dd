import { meanOf, shareOf } from '../../../imaging/masks.ts'
import { brighter, countOf, open, union } from '../../../kernels/masks.ts'
import { type EyeLevels, LEAST_REFLECTION, LIKE_WHITE, OVER_WHITE } from './eye-levels.ts'
import type { EyePatch } from './eye-patch.ts'
import { irisIsAside } from './iris-aside.ts'
import type { SkinColor } from './skin-color.ts'
import { thinRadius } from './thin-radius.ts'

/**
 * Largest share of the iris, and of its inner part, that catchlights cover.
 * @tuned on drawn sitters of all ten Monk tones and 25 photographs: two soft boxes cover 16 square mm of 110, and of 75
 */
const MOST_CATCHLIGHTS = 0.25
/**
 * How bright beside the white of the eye may be what lies in the place of an iris that looks aside.
 * @tuned on composites of photographs: a light half beside an iris is 1.7 times as bright or more, the white in full light 1.33 times. From 1.3 to 1.55 no
 *   verdict of 245 pictures changes; chosen without each sitter in turn, half-way, it would miss one light (2.3 without the only one that is near)
 */
const MOST_WHITE = 1.4
/**
 * Share of the inner iris that a veil must cover.
 * @tuned on drawn sitters of all ten Monk tones and 25 photographs: catchlights and the white of eyes that look aside come to 0.32, lights to 0.34.
 *   At 0.28 no verdict of 245 pictures changes, at 0.38 one light is missed; chosen without each sitter in turn, half-way (0.30 to 0.33), none is
 */
const LEAST_VEIL = 0.33
/**
 * Luminance of a glare's continuation over the eye beside that around it.
 * @tuned on drawn sitters of all ten Monk tones and 25 photographs
 */
const LIKE_AROUND = 0.85
/**
 * Share of the region around the eye from which a reflection there goes on over the eye.
 * @tuned on drawn sitters of all ten Monk tones and 25 photographs
 */
const LEAST_AROUND = 0.02

/** What is known of both eyes when one is looked into. */
export interface EyeSurroundings {
  readonly skin: SkinColor
  /** Luminance of the white of the eye over that of the skin around, at the eye where it is less. */
  readonly whiteOverSkin: number
  /** Px. */
  readonly eyeDistance: number
}

/**
 * Mask of what a lens reflects over the open eye; nothing when all that shines there are catchlights. It is a veil of
 * light over the iris, or a light that covers more of the iris than catchlights do, or the rest of a reflection around the
 * eye. When the iris lies beside where it was found, what shines in its place is the white of the eye.
 * @param around mask of what is reflected around the eye
 */
export function reflectionsInside(
  patch: EyePatch,
  around: Uint8Array,
  levels: EyeLevels,
  { skin, whiteOverSkin, eyeDistance }: EyeSurroundings,
): Uint8Array {
  const { opening, luminance, innerIris } = patch
  const least = Math.max(LEAST_REFLECTION, skin.middle)
  const veil = brighter(opening, luminance, Math.max(least, LIKE_WHITE * levels.usualWhite))
  const isVeiled = shareOf(veil, innerIris) > LEAST_VEIL
  const lights = wideLights(patch, Math.max(least, OVER_WHITE * whiteOverSkin * levels.skin), eyeDistance)
  const isCovered = coversIris(lights, patch)
  const shining = isVeiled ? veil : lights
  const isAside =
    (isVeiled || isCovered) &&
    meanOf(luminance, shining) < MOST_WHITE * whiteOverSkin * levels.skin &&
    irisIsAside(patch, shining, levels.skin)
  if (isVeiled && !isAside) return veil
  const rest = restOfGlare(patch, around, levels, isAside)
  return isCovered && !isAside ? union(lights, rest) : rest
}

/** Where lights shine on the iris, brighter than the white of the eye. */
export function lightsOnIris({ innerIris, luminance }: EyePatch, { white }: EyeLevels): Uint8Array {
  return brighter(innerIris, luminance, Math.max(OVER_WHITE * white, LEAST_REFLECTION))
}

function wideLights({ opening, luminance, width, height }: EyePatch, limit: number, eyeDistance: number) {
  return open(brighter(opening, luminance, limit), width, height, thinRadius(eyeDistance))
}

function coversIris(lights: Uint8Array, { innerIris, iris }: EyePatch): boolean {
  return shareOf(lights, innerIris) > MOST_CATCHLIGHTS && countOf(lights) > MOST_CATCHLIGHTS * countOf(iris)
}

/** What goes on over the eye of a reflection around it: about as bright, and like the white of the eye at least. */
function restOfGlare(patch: EyePatch, around: Uint8Array, levels: EyeLevels, isAside: boolean): Uint8Array {
  const { opening, luminance } = patch
  if (countOf(around) <= LEAST_AROUND * countOf(patch.around)) return new Uint8Array(opening.length)
  const overWhite = isAside ? OVER_WHITE * levels.white : LIKE_WHITE * levels.usualWhite
  return brighter(opening, luminance, Math.max(LIKE_AROUND * meanOf(luminance, around), overWhite))
}
