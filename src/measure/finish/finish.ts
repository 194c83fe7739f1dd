import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import type { LocatedFace } from '../face/find-faces.ts'
import { FOCUS_EYE_DISTANCE_PX } from '../schema/finish.ts'
import type { Enlargement, EyePair, Face, Finish, Focus, MeasurementGroup } from '../schema/measurements.ts'
import { matchEyes, unknownEyePair } from './eyes/match-eyes.ts'
import { measureFocus, noFocus } from './focus/eye-focus.ts'
import { areLensesDark, measureLensGlare, unknownGlare } from './glare/lens-glare.ts'
import { type Reflections, seeReflections } from './glare/see-reflections.ts'
import { isEnlarged } from './resampling/enlarged.ts'
import { measureClipping, unknownClipping } from './skin/clipping.ts'
import { measureKeyLight, unknownKey } from './skin/key-light.ts'
import { measureSkinTint, unknownSkinTint } from './skin/skin-tint.ts'
import { measureSkinTexture, unknownTexture } from './skin/texture.ts'
import { areEyesBare, measureSpectacles, PUPILS_MM, unknownSpectacles } from './spectacles/spectacles.ts'

/**
 * What a retoucher sees at full size.
 * @param picture at full size, or as much of it as is around the face
 * @param located the largest face in its pixels; null when there is none
 * @param face what was measured of it
 * @param groups that are asked for: what belongs to one of its own is read for that alone
 */
export function measureFinish(
  picture: RgbPicture,
  located: LocatedFace | null,
  face: Face,
  groups: readonly MeasurementGroup[],
): Finish {
  const { doubts } = face
  const seen = located && seeReflections(picture, located)
  const spectacles = located
    ? measureSpectacles(picture, located, face, seen !== null && areLensesDark(seen))
    : unknownSpectacles(doubts)
  const bare = areEyesBare(spectacles)
  const focus = groups.includes('focus')
    ? focusOf(picture, located, seen, { bare, halo: groups.includes('halo') }, face)
    : null
  return {
    eyeFocusPx: focus?.eyePx ?? null,
    focus,
    enlargement: groups.includes('enlargement') ? enlargementOf(picture, located) : null,
    spectacles,
    ...(located ? measureLensGlare(picture, seen, face, bare) : unknownGlare(doubts)),
    ...(located ? measureClipping(picture, located, face) : unknownClipping(doubts)),
    ...(located ? measureKeyLight(picture, located, face) : unknownKey(doubts)),
    skinTint: located ? measureSkinTint(picture, located, face) : unknownSkinTint(doubts),
    eyePair: groups.includes('eyes') ? eyePairOf(picture, located, face) : null,
    ...(located && groups.includes('texture')
      ? measureSkinTexture(picture, located, face)
      : unknownTexture(doubts)),
  }
}

function eyePairOf(picture: RgbPicture, located: LocatedFace | null, face: Face): EyePair {
  return located ? matchEyes(picture, located, face) : unknownEyePair(face.doubts)
}

/** Looked for about the eyes, or about the middle of the picture where there are none. */
function enlargementOf(picture: RgbPicture, located: LocatedFace | null): Enlargement {
  const [[leftX, leftY], [rightX, rightY]] = located?.irises ?? [
    [picture.width / 2, picture.height / 2],
    [picture.width / 2, picture.height / 2],
  ]
  const found = isEnlarged(picture, { x: (leftX + rightX) / 2, y: (leftY + rightY) / 2 })
  return {
    found,
    confidence: found === null ? 0 : 1,
    doubts: found === null ? ['picture-too-small-for-traces'] : [],
  }
}

/** Blur in which wires of spectacles are lost, so that to see none means nothing, Gaussian sigma in mm. @choice half of what they are thick, no source. */
const LOST_WIRES_MM = 0.5

/** The same in px at the inter-eye distance of focus. @choice definition. */
const LOST_WIRES_PX = (LOST_WIRES_MM * FOCUS_EYE_DISTANCE_PX) / PUPILS_MM

/** Naked eyes are read also where something shines on them. */
function focusOf(
  picture: RgbPicture,
  located: LocatedFace | null,
  seen: Reflections | null,
  { bare, halo }: { readonly bare: boolean; readonly halo: boolean },
  face: Face,
): Focus {
  if (!located) return noFocus(face.doubts)
  const read = (reflections: Reflections | null) =>
    measureFocus(picture, located.irises, located.mesh, face, reflections, halo)
  const naked = bare ? read(null) : null
  return naked && naked.eyePx !== null && naked.eyePx < LOST_WIRES_PX ? naked : read(seen)
}
