import { SURE } from '../measure/schema/confidence.ts'
import { SAME_FRAME_LEAST_EYE_DISTANCE_PX } from '../measure/schema/gates.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import { faceLikeness, faceLikenessEachWay, frameLikeness, type PairLikeness } from './aligned-likeness.ts'
import type { Likeness } from './grid-likeness.ts'
import { facesMayAgree, headsAgree, tonesAgree } from './quick-likeness.ts'
import type { ReadySignature } from './ready-signature.ts'

/** What two files show: the same picture, perhaps the same, or different pictures. */
export type Sameness = 'same' | 'perhaps' | 'different'

/** Likeness from which two aligned grids are one picture: correlation, local likeness, and the local likeness below which they are different. */
interface Limits {
  readonly whole: number
  readonly local: number
  readonly perhaps: number
}

/**
 * Of frames.
 * @tuned on drawn sitters and 25 photographs, each with copies at JPEG quality 50, at 25 %, cropped by 10 % and mirrored:
 *   copies have 0.88 or more, but for one in 200 that is found by its face; different people 0.83 at most
 */
const PICTURE_BY_FRAME: Limits = { whole: 0.985, local: 0.88, perhaps: 0.85 }
/**
 * Of faces.
 * @tuned on drawn sitters and 25 photographs, each with four copies: different people have 0.87 at most, and then their
 *   heads differ
 */
const PICTURE_BY_FACE: Limits = { whole: 0.985, local: 0.85, perhaps: 0.8 }

/** Whether two files show one picture, saved again, resized, cropped a little or mirrored. */
export function samePicture(
  a: ReadySignature,
  b: ReadySignature,
): { sameness: Sameness; isMirrored: boolean } {
  const whole = tonesAgree(a, b) ? frameLikeness(a, b, PICTURE_BY_FRAME.whole) : null
  const byFrame = grade(whole, PICTURE_BY_FRAME)
  if (whole && byFrame === 'same') return { sameness: 'same', isMirrored: whole.isMirrored }
  const face = facesMayAgree(a, b) ? faceLikeness(a, b, PICTURE_BY_FACE.whole) : null
  const byFace =
    face && headsAgree(a, b, face.isMirrored ? 'mirror' : 'plain')
      ? grade(face, PICTURE_BY_FACE)
      : 'different'
  if (face && byFace !== 'different') return { sameness: byFace, isMirrored: face.isMirrored }
  return { sameness: byFrame, isMirrored: whole?.isMirrored ?? false }
}

function grade(pair: PairLikeness | null, limits: Limits): Sameness {
  if (!pair || pair.whole < limits.whole || pair.local < limits.perhaps) return 'different'
  return pair.local >= limits.local ? 'same' : 'perhaps'
}

/**
 * Local likeness from which two faces are one frame.
 * @tuned on 24 drawn sitters in five frames each and on 25 photographs: copies of one frame have 0.90 to 1, 19 of 20 of
 *   them 0.93 or more
 */
const FRAME_SURE = 0.9
/**
 * Local likeness up to which they are two frames. In between, as with a faint smile beneath a full beard, it stays open.
 * @tuned on 24 drawn sitters in five frames each and on 25 photographs: another mouth, other eyes or a turn of the head by
 *   5 degrees give 0.87 at most
 */
const OTHER_SURE = 0.86

/**
 * How many times as much the wrong way round must leave unlike as the right one.
 * @tuned on 87 photographs, each cropped, sized down, saved at quality 50 and made gray, as it is and flipped: of 815 pairs that show one
 *   frame 17 times as much and more
 */
const PLAINLY_BETTER = 4

/** Whether two files of one person show one frame, and whether one of them is flipped. */
export interface FrameSameness {
  readonly sameness: Sameness
  /** Null where that can't be told: the face is as good as symmetric. */
  readonly isMirrored: boolean | null
  /** Local likeness of the faces, laid over each other the better way round, -1..1; -1 where that can't be done. */
  readonly local: number
}

/** Whether two files of one person come from the same frame; 'perhaps' when that stays open. */
export function sameFrame(
  a: ReadySignature,
  b: ReadySignature,
  faces: readonly Measurements['face'][],
): FrameSameness {
  const clear = faces.every(
    (one) => one && one.confidence >= SURE && (one.eyeDistancePx ?? 0) >= SAME_FRAME_LEAST_EYE_DISTANCE_PX,
  )
  const { plain, mirror } = faceLikenessEachWay(a, b)
  const isMirrored = isBetterMirrored(plain, mirror)
  const local = Math.max(plain?.local ?? -1, mirror?.local ?? -1)
  if ((!plain && !mirror) || !clear) return { sameness: 'perhaps', isMirrored, local }
  if (local >= FRAME_SURE) return { sameness: 'same', isMirrored, local }
  return { sameness: local <= OTHER_SURE ? 'different' : 'perhaps', isMirrored, local }
}

function isBetterMirrored(plain: Likeness | null, mirror: Likeness | null): boolean | null {
  const [asIs, flipped] = [unlike(plain), unlike(mirror)]
  if (flipped > PLAINLY_BETTER * asIs) return false
  return asIs > PLAINLY_BETTER * flipped ? true : null
}

/** What of one grid the other doesn't explain, share of it. */
function unlike(pair: Likeness | null): number {
  return pair ? 1 - pair.whole : 1
}
