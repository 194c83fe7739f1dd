import type { DecodedPicture } from './decoded-picture.ts'
import type { LocatedFace } from './find-faces.ts'
import { measureFocus, noFocus } from './focus/eye-focus.ts'
import { measureLensGlare, unknownGlare } from './glare/lens-glare.ts'
import type { Face, Finish } from './measurements.ts'
import { measureClipping, unknownClipping } from './skin/clipping.ts'
import { measureKeyLight, unknownKey } from './skin/key-light.ts'

/**
 * What a retoucher sees at full size.
 * @param located the largest face in pixels of `picture`; null when there is none
 * @param face what was measured of it
 */
export function measureFinish(picture: DecodedPicture, located: LocatedFace | null, face: Face): Finish {
  const { doubts } = face
  const focus = located ? measureFocus(picture, located.irises, located.mesh, face) : noFocus(doubts)
  return {
    eyeFocusPx: focus.eyePx,
    focus,
    ...(located ? measureLensGlare(picture, located, face) : unknownGlare(doubts)),
    ...(located ? measureClipping(picture, located, face) : unknownClipping(doubts)),
    ...(located ? measureKeyLight(picture, located, face) : unknownKey(doubts)),
  }
}
