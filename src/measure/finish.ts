import type { DecodedPicture } from './decoded-picture.ts'
import type { LocatedFace } from './find-faces.ts'
import { measureFocus, noFocus } from './focus/eye-focus.ts'
import type { Face, Finish } from './measurements.ts'

/**
 * What a retoucher sees at full size.
 * @param located the largest face in pixels of `picture`; null when there is none
 * @param face what was measured of it
 */
export function measureFinish(picture: DecodedPicture, located: LocatedFace | null, face: Face): Finish {
  const unknown = { confidence: 0, doubts: face.doubts }
  const focus = located ? measureFocus(picture, located.irises, located.mesh, face) : noFocus(face.doubts)
  return {
    eyeFocusPx: focus.eyePx,
    focus,
    lensGlarePct: null,
    lensGlare: { left: null, right: null, ...unknown },
    clippedHighlightPct: null,
    clippedShadowPct: null,
    clipping: unknown,
    keySide: null,
    keyRatioStops: null,
    key: unknown,
  }
}
