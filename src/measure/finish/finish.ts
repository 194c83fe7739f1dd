import type { LocatedFace } from '../face/find-faces.ts'
import type { DecodedPicture } from '../file/decoded-picture.ts'
import type { Face, Finish, Focus } from '../schema/measurements.ts'
import { measureFocus, noFocus } from './focus/eye-focus.ts'
import { areLensesDark, measureLensGlare, unknownGlare } from './glare/lens-glare.ts'
import { type Reflections, seeReflections } from './glare/see-reflections.ts'
import { measureClipping, unknownClipping } from './skin/clipping.ts'
import { measureKeyLight, unknownKey } from './skin/key-light.ts'
import { areEyesBare, measureSpectacles, unknownSpectacles } from './spectacles/spectacles.ts'

/**
 * What a retoucher sees at full size.
 * @param located the largest face in pixels of `picture`; null when there is none
 * @param face what was measured of it
 * @param withFocus whether to read the sharpness of the eyes, which takes as long as all the rest
 */
export function measureFinish(
  picture: DecodedPicture,
  located: LocatedFace | null,
  face: Face,
  withFocus: boolean,
): Finish {
  const { doubts } = face
  const seen = located && seeReflections(picture, located)
  const spectacles = located
    ? measureSpectacles(picture, located, face, seen !== null && areLensesDark(seen))
    : unknownSpectacles(doubts)
  const bare = areEyesBare(spectacles)
  const focus = withFocus ? focusOf(picture, located, bare ? null : seen, face) : null
  return {
    eyeFocusPx: focus?.eyePx ?? null,
    focus,
    spectacles,
    ...(located ? measureLensGlare(picture, seen, face, bare) : unknownGlare(doubts)),
    ...(located ? measureClipping(picture, located, face) : unknownClipping(doubts)),
    ...(located ? measureKeyLight(picture, located, face) : unknownKey(doubts)),
  }
}

function focusOf(
  picture: DecodedPicture,
  located: LocatedFace | null,
  seen: Reflections | null,
  face: Face,
): Focus {
  return located ? measureFocus(picture, located.irises, located.mesh, face, seen) : noFocus(face.doubts)
}
