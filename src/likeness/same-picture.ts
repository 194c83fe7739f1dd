import { SURE } from '../measure/schema/confidence.ts'
import { SAME_FRAME_LEAST_EYE_DISTANCE_PX } from '../measure/schema/gates.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import { correlation } from './grid-likeness.ts'
import {
  faceLikeness,
  frameLikeness,
  type PairLikeness,
  type ReadySignature,
  roughFaceLikeness,
  toneDistance,
} from './signature-pair.ts'

/** What two files show: the same picture, hardly another, or different pictures. */
export type Sameness = 'same' | 'perhaps' | 'different'

// All found on drawn sitters and photographs, each with copies at JPEG quality 50, at 25 %, cropped by 10 % and mirrored:
// copies have at least 0.88 by the frame (one in 200 less, found by its face), different people at
// most 0.83 and 0.87; where faces come that close, the heads correlate by 0.69, those of copies by 0.94 or more.
const SAME_FRAME = { whole: 0.985, local: 0.88, perhaps: 0.85 }
const SAME_FACE = { whole: 0.985, local: 0.85, perhaps: 0.8 }
const SAME_HEAD = 0.9
/** In codes: pairs that differ more than this in tone are not compared by their frames. */
export const TONES = 14
// Nor by their faces, those that are less alike than this as they lie.
const ROUGHLY = 0.75

/** Whether two files show one picture, saved again, resized, cropped a little or mirrored. */
export function samePicture(
  a: ReadySignature,
  b: ReadySignature,
): { sameness: Sameness; isMirrored: boolean } {
  const whole = toneDistance(a, b) <= TONES ? frameLikeness(a, b) : null
  const byFrame = grade(whole, SAME_FRAME)
  if (whole && byFrame === 'same') return { sameness: 'same', isMirrored: whole.isMirrored }
  const face = facesMayAgree(a, b) ? faceLikeness(a, b) : null
  const byFace = face && headsAgree(a, b, face.isMirrored) ? grade(face, SAME_FACE) : 'different'
  if (face && byFace !== 'different') return { sameness: byFace, isMirrored: face.isMirrored }
  return { sameness: byFrame, isMirrored: whole?.isMirrored ?? false }
}

function grade(pair: PairLikeness | null, limits: typeof SAME_FACE): Sameness {
  if (!pair || pair.whole < limits.whole || pair.local < limits.perhaps) return 'different'
  return pair.local >= limits.local ? 'same' : 'perhaps'
}

/** Laying faces on each other takes long; heads that agree neither way spare it. */
export function facesMayAgree(a: ReadySignature, b: ReadySignature): boolean {
  const heads = headsAgree(a, b, false) || headsAgree(a, b, true)
  return heads && (roughFaceLikeness(a, b) ?? 0) >= ROUGHLY
}

function headsAgree(a: ReadySignature, b: ReadySignature, isMirrored: boolean): boolean {
  if (!a.head || !b.head) return false
  return correlation(a.head.plain, isMirrored ? b.head.mirror : b.head.plain) >= SAME_HEAD
}

// Found on 24 drawn sitters in five frames each and on 25 photographs: copies of one frame have 0.90 to 1, and 19 of 20
// have 0.93 or more; another mouth, other eyes or a turn of the head by 5° give at most 0.87. What lies between, such as
// a faint smile beneath a full beard, nobody could tell for certain.
const FRAME_SURE = 0.9
const OTHER_SURE = 0.86

/** Whether two files of one person come from the same frame; 'perhaps' when that can't be told. */
export function sameFrame(
  a: ReadySignature,
  b: ReadySignature,
  faces: readonly Measurements['face'][],
): Sameness {
  const face = faceLikeness(a, b)
  const clear = faces.every(
    (one) => one && one.confidence >= SURE && (one.eyeDistancePx ?? 0) >= SAME_FRAME_LEAST_EYE_DISTANCE_PX,
  )
  if (!face || !clear) return 'perhaps'
  if (face.local >= FRAME_SURE) return 'same'
  return face.local <= OTHER_SURE ? 'different' : 'perhaps'
}
