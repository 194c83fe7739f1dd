import { doubted, SURE } from '../schema/confidence.ts'
import { FACE_LEAST_EYE_DISTANCE_PX, FACE_MOST_NOD_DEG, FACE_MOST_TURN_DEG } from '../schema/gates.ts'
import type { Box, Doubt, Face } from '../schema/measurements.ts'
import { eyeTiltDeg } from './eye-tilt.ts'
import { type FaceLandmarks, frontalDistance, type Pixel, placeOnFace } from './face-axes.ts'
import { angleErrorDeg, eyesError, tiltErrorDeg } from './face-errors.ts'
import type { FoundFaces, LocatedFace } from './find-faces.ts'
import type { MeshPoint, ModelFace } from './networks/face-model.ts'
import { EYES_TO_FACE, plausible } from './proportions.ts'

/** Widest points of the face. @source the 468-point face mesh of MediaPipe, canonical face model. */
const SIDES = [234, 454] as const

/** The lower contour of the face. @source the 468-point face mesh of MediaPipe, canonical face model. */
const LOWER_CONTOUR = [
  132, 58, 172, 136, 150, 149, 176, 148, 152, 377, 400, 378, 379, 365, 397, 288, 361,
] as const

/**
 * Score of the detector at which a face is half sure.
 * @tuned on 443 faces of drawn and photographed portraits, of which 8, six of them under 55 px between the eyes, are under it; patterns and drawings that are taken for faces are up to 0.47.
 */
const SCORE_HALF = 0.5

/** Score of the detector at which a face is beyond doubt. @tuned on the same portraits. */
const SCORE_FULL = 0.9

/** What a photograph adds to the published range of the eyes' distance, share of it. @choice perspective, and landmarks that are a pixel or two off; no source. */
const EYES_SLACK = 0.2

/**
 * Pitch of the face's axis on a head held level, degrees: it leans back at the chin, from the hairline.
 * @source the canonical face model of MediaPipe, points 10 and 152. 51 studio portraits of people told to look ahead read 1.1° in the mean.
 */
const LEVEL_PITCH_DEG = 0.7
const DEGREES = 180 / Math.PI

export interface FaceReading {
  readonly face: Face
  readonly landmarks: FaceLandmarks | null
}

/**
 * @param found what the models found, in pixels of the picture searched
 * @param width width and height of the picture searched
 * @param scale full-size pixels per pixel of the picture searched
 */
export function measureFace(
  found: Pick<FoundFaces, 'largest' | 'others'> | null,
  width: number,
  height: number,
  scale: number,
): FaceReading {
  if (!found) return { face: NO_FACE, landmarks: null }
  const { largest, others } = found
  const landmarks = landmarksOf(largest)
  const { leftEye, rightEye } = landmarks
  const eyesApart = Math.hypot(rightEye.x - leftEye.x, rightEye.y - leftEye.y)
  const eyeDistancePx = eyesApart * scale
  const doubts: Doubt[] = []
  const sure = confidenceOf(largest.score)
  if (sure < SURE) doubts.push('face-uncertain')
  if (eyeDistancePx < FACE_LEAST_EYE_DISTANCE_PX) doubts.push('face-too-small')
  // A turn narrows both alike.
  if (!plausible(eyesApart / breadth(largest), EYES_TO_FACE, EYES_SLACK)) doubts.push('eyes-implausible')
  const turnDeg = -largest.yaw * DEGREES
  const nodDeg = LEVEL_PITCH_DEG - largest.pitch * DEGREES
  if (Math.abs(turnDeg) > FACE_MOST_TURN_DEG || Math.abs(nodDeg) > FACE_MOST_NOD_DEG)
    doubts.push('face-turned')
  const face: Face = {
    count: 1 + others.length,
    score: largest.score,
    others: others.map((other) => ({ box: boxOf(other, width, height), score: other.score })),
    box: boxOf(largest, width, height),
    leftEye: { x: leftEye.x / width, y: leftEye.y / height },
    rightEye: { x: rightEye.x / width, y: rightEye.y / height },
    eyeDistancePx,
    tiltDeg: eyeTiltDeg(largest.irises),
    tiltErrorDeg: tiltErrorDeg(eyesApart, largest.irisesSeen),
    turnDeg,
    turnErrorDeg: angleErrorDeg('turn', turnDeg),
    nodDeg,
    nodErrorDeg: angleErrorDeg('nod', nodDeg),
    confidence: doubted(sure, doubts),
    doubts,
  }
  return { face, landmarks }
}

const NO_FACE: Face = {
  count: 0,
  score: 0,
  others: [],
  box: null,
  leftEye: null,
  rightEye: null,
  eyeDistancePx: null,
  tiltDeg: null,
  tiltErrorDeg: null,
  turnDeg: null,
  turnErrorDeg: null,
  nodDeg: null,
  nodErrorDeg: null,
  confidence: 0,
  doubts: ['no-face'],
}

function landmarksOf({ mesh, yaw, irises, irisesSeen }: LocatedFace): FaceLandmarks {
  const [leftEye, rightEye] = irises.map(([x, y]): Pixel => ({ x, y })).sort((a, b) => a.x - b.x) as [
    Pixel,
    Pixel,
  ]
  const across = { x: rightEye.x - leftEye.x, y: rightEye.y - leftEye.y }
  const length = Math.hypot(across.x, across.y) || 1
  const axis = { x: -across.y / length, y: across.x / length }
  const midEyes = { x: (leftEye.x + rightEye.x) / 2, y: (leftEye.y + rightEye.y) / 2 }
  const along = (pixel: Pixel) => placeOnFace({ midEyes, axis }, pixel).along
  const lower = LOWER_CONTOUR.map((i) => pixelAt(mesh, i))
  const meshChin = lower.reduce((lowest, p) => (along(p) > along(lowest) ? p : lowest))
  const eyeDistance = frontalDistance(length, yaw)
  return { leftEye, rightEye, midEyes, eyesError: eyesError(length, irisesSeen), eyeDistance, axis, meshChin }
}

/** Breadth of the face as the picture shows it, between the widest points of its mesh. */
function breadth({ mesh }: ModelFace): number {
  const [a, b] = SIDES.map((i) => pointAt(mesh, i)) as [MeshPoint, MeshPoint]
  return Math.hypot(a[0] - b[0], a[1] - b[1])
}

function pointAt(mesh: readonly MeshPoint[], index: number): MeshPoint {
  const point = mesh[index]
  if (!point) throw new Error(`The face mesh has ${mesh.length} points; point ${index} was expected.`)
  return point
}

function pixelAt(mesh: readonly MeshPoint[], index: number): Pixel {
  const [x, y] = pointAt(mesh, index)
  return { x, y }
}

function confidenceOf(score: number): number {
  if (score < SCORE_HALF) return Math.max(0, (0.5 * score) / SCORE_HALF)
  return Math.min(1, 0.5 + (0.5 * (score - SCORE_HALF)) / (SCORE_FULL - SCORE_HALF))
}

function boxOf({ box: [x, y, w, h] }: ModelFace, width: number, height: number): Box {
  return { x: x / width, y: y / height, width: w / width, height: h / height }
}
