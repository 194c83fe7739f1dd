import type { DecodedPicture } from './decoded-picture.ts'
import type { LocatedFace } from './find-faces.ts'
import type { Face, Finish } from './measurements.ts'

/**
 * What a retoucher sees at full size.
 * @param located the largest face in pixels of `picture`; null when there is none
 * @param face what was measured of it
 */
export function measureFinish(_picture: DecodedPicture, _located: LocatedFace | null, face: Face): Finish {
  const unknown = { confidence: 0, doubts: face.doubts }
  return {
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
