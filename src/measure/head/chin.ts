import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import { type FaceGeometry, type FaceLandmarks, pixelOnFace, placeOnFace } from '../face/face-axes.ts'
import type { ModelFace } from '../face/networks/face-model.ts'
import type { Face } from '../schema/measurements.ts'
import { chinEvidence, likelihoods, likelyPlace } from './chin-evidence.ts'
import { chinSlopes } from './chin-slopes.ts'
import { CHIN_WEIGHTS } from './chin-weights.ts'

/**
 * The error told, times the spread of where the chin may be.
 * @tuned on 51 published photographs by cross-validation (npm run fit:chin): 95 of 100 marks are within 1.64 spreads, 49 of the 51 within this.
 */
export const TOLD = 2

/** Turn or nod from which the mesh draws the chin too high, degrees. @tuned on ten photographs up to 17°, which are read as those ahead are, and six from 28° on. */
const FRONTAL_DEG = 20

/** What each degree beyond adds to the error told, share of the way from the eyes to the chin. @tuned on six photographs turned or nodded by 28 to 53°, five of which it covers. */
const PER_DEGREE = 0.02

/**
 * Reads the chin in the picture, since the mesh draws long and short faces towards the average one: of all places near its chin the
 * one where light and color change as they do at chins. Where little shows (soft light, a beard, cloth, the edge of the frame) the usual
 * proportions decide, and the error told is larger.
 * @param picture the picture that the landmarks refer to
 */
export function readChin(
  picture: RgbPicture,
  face: Pick<ModelFace, 'mesh'>,
  landmarks: FaceLandmarks,
  { turnDeg, nodDeg }: Pick<Face, 'turnDeg' | 'nodDeg'>,
): Pick<FaceGeometry, 'chin' | 'chinError'> {
  const { cell, likely, slopes } = chinSlopes(picture, face, landmarks)
  const { place, spread } = likelyPlace(likelihoods(chinEvidence(slopes), CHIN_WEIGHTS))
  const { across } = placeOnFace(landmarks, landmarks.meshChin)
  const turned = Math.max(0, Math.abs(turnDeg ?? 0) - FRONTAL_DEG, Math.abs(nodDeg ?? 0) - FRONTAL_DEG)
  return {
    chin: pixelOnFace(landmarks, { across, along: likely + place * cell }),
    chinError: TOLD * spread * cell + PER_DEGREE * turned * likely,
  }
}
