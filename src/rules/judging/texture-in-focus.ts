import { SURE } from '../../measure/schema/confidence.ts'
import { TEXTURE_BAND_PX } from '../../measure/schema/finish.ts'
import type { Finish } from '../../measure/schema/measurements.ts'

/**
 * Edge spread of eyes in focus, px at the inter-eye distance of focus, to which textures are compared.
 * @tuned on 26 studio portraits: 0.59 to 0.91, 0.77 in the median
 */
const IN_FOCUS_PX = 0.75

/**
 * The texture that the skin would show if the eyes were in focus, percent of its lightness; null where its texture or the sharpness of the eyes
 * is not surely known. What blurred the eyes blurred the skin: the power of skin falls with the square of frequency, so that a blur leaves as
 * much of the band that is read as {@link shareLeft} says. On the 26 portraits blurred by 1 to 4 px this is 0.95 to 1.16 times the texture of the sharp one in
 * the median; the retouch alone makes it small.
 */
export function textureInFocusPct({ skinTexturePct, texture, focus }: Finish): number | null {
  const eyePx = focus && focus.confidence >= SURE ? focus.eyePx : null
  if (skinTexturePct === null || texture.confidence < SURE || eyePx === null) return null
  return skinTexturePct / shareLeft(Math.max(0, eyePx ** 2 - IN_FOCUS_PX ** 2))
}

/**
 * Share of the contrast that a Gaussian blur of some variance leaves.
 * @source the integral over all frequencies of (exp(-a f^2) - exp(-b f^2))^2 exp(-c f^2) / f
 */
function shareLeft(variance: number): number {
  const [fine, coarse] = [TEXTURE_BAND_PX.fine ** 2, TEXTURE_BAND_PX.coarse ** 2]
  const power = (blur: number) =>
    2 * Math.log((fine + coarse) / 2 + blur) - Math.log(fine + blur) - Math.log(coarse + blur)
  return Math.sqrt(power(variance) / power(0))
}
