import type { EyesError } from './face-errors.ts'

/** A place in a picture, px from its top left corner. */
export interface Pixel {
  readonly x: number
  readonly y: number
}

/** How the face lies, in pixels of one copy of the picture. */
export interface FaceAxes {
  readonly leftEye: Pixel
  readonly rightEye: Pixel
  readonly midEyes: Pixel
  /** How far their middle may be off. */
  readonly eyesError: EyesError
  /** Distance of the iris centers, as if the face were turned to the camera. */
  readonly eyeDistance: number
  /** Unit vector from the eyes towards the chin. */
  readonly axis: Pixel
}

/** What the models tell of the face. */
export interface FaceLandmarks extends FaceAxes {
  /** Lowest point along the axis of the mesh's lower contour. */
  readonly meshChin: Pixel
}

/** What the head is measured from. */
export interface FaceGeometry extends FaceAxes {
  /** The chin as it shows in the picture. */
  readonly chin: Pixel
  /** How far along the axis the chin may lie from there, to either side: 95 of 100 are within it. */
  readonly chinError: number
}

/** Least cosine of a turn by which a distance is stretched. @choice that of 60°, far beyond the turns that are judged: no noise may grow more than twofold. */
const LEAST_COSINE = 0.5

/** A distance across a face, as if the face were turned to the camera. @param yaw radians */
export function frontalDistance(distance: number, yaw: number): number {
  return distance / Math.max(LEAST_COSINE, Math.cos(yaw))
}

/** A place on the upright face: across to the right from the middle of the eyes, and along the axis down from it. */
export interface FacePlace {
  readonly across: number
  readonly along: number
}

type Upright = Pick<FaceAxes, 'midEyes' | 'axis'>

/** @param unit of the place, px */
export function placeOnFace({ midEyes, axis }: Upright, { x, y }: Pixel, unit = 1): FacePlace {
  const [dx, dy] = [(x - midEyes.x) / unit, (y - midEyes.y) / unit]
  return { across: dx * axis.y - dy * axis.x, along: dx * axis.x + dy * axis.y }
}

/** The pixel at a place on the face. @param unit of the place, px */
export function pixelOnFace({ midEyes, axis }: Upright, { across, along }: FacePlace, unit = 1): Pixel {
  return {
    x: midEyes.x + unit * (across * axis.y + along * axis.x),
    y: midEyes.y + unit * (along * axis.y - across * axis.x),
  }
}
