import type { Outline } from '../../../imaging/polygon.ts'
import { frontalDistance } from '../../face/face-axes.ts'
import type { LocatedFace } from '../../face/find-faces.ts'

/** One eye with what a spectacle lens before it covers, in pixels of the picture. */
export interface EyeRegion {
  /** From below the brow to the cheekbone. */
  readonly lens: Outline
  /** The open eye with its lid margins. */
  readonly opening: Outline
  /** Of length 1, from the outer to the inner corner. */
  readonly axis: { readonly x: number; readonly y: number }
  readonly iris: { readonly x: number; readonly y: number; readonly radius: number }
}

/**
 * What a lens covers, by points of the 468-point face mesh: the eye at the left of the frame, then the one at the right.
 * @choice from below the brow to the cheekbone, as drawn and photographed lenses do.
 */
const LENSES = [
  [113, 225, 224, 223, 222, 221, 189, 245, 128, 121, 120, 119, 118, 117, 111, 143],
  [342, 445, 444, 443, 442, 441, 413, 465, 357, 350, 349, 348, 347, 346, 340, 372],
] as const

/** The open eyes in the same order, each from its outer corner. @source the 468-point face mesh of MediaPipe, canonical face model. */
const OPENINGS = [
  [33, 246, 161, 160, 159, 158, 157, 173, 133, 155, 154, 153, 145, 144, 163, 7],
  [263, 466, 388, 387, 386, 385, 384, 398, 362, 382, 381, 380, 374, 373, 390, 249],
] as const

/**
 * Radius of an iris, share of the inter-eye distance.
 * @source Rüfer, Schröder and Erb, Cornea 24(3), 2005: corneas are 11.7 mm across in nearly every adult; Dodgson, Proc. SPIE 5291, 2004:
 * pupils are 63 mm apart in the mean.
 */
const IRIS_RADIUS = 0.092

/** Lid margins and lashes beyond the opening, share of the inter-eye distance. @choice one and a half millimeters, no source. */
const LIDS = 0.025

/** Turn from which the far eye's region ends by the outer corner, degrees: it runs over the edge of the face. @choice no source. */
const CLIPPING_TURN_DEG = 15

/** How far beside the outer corner it then ends, share of the inter-eye distance. @choice two millimeters, no source. */
const BESIDE_CORNER = 0.03

/** Inter-eye distance in px, as if the face were turned to the camera. */
export function eyeDistanceOf({ irises: [left, right], yaw }: LocatedFace): number {
  return frontalDistance(Math.hypot(right[0] - left[0], right[1] - left[1]), yaw)
}

/** The eye at the left of the frame, then the one at the right. */
export function eyeRegions(face: LocatedFace): readonly [EyeRegion, EyeRegion] {
  return [regionOf(face, 0), regionOf(face, 1)]
}

function regionOf(face: LocatedFace, eye: 0 | 1): EyeRegion {
  const { irises, mesh, yaw } = face
  const distance = eyeDistanceOf(face)
  const outline = (indexes: readonly number[]): [number, number][] =>
    indexes.map((index) => {
      const point = mesh[index]
      if (!point) throw new Error(`The face mesh has ${mesh.length} points; point ${index} was expected.`)
      return [point[0], point[1]]
    })
  const opening = outline(OPENINGS[eye])
  const [x, y] = irises[eye]
  const outwards = eye === 0 ? -1 : 1
  const turnDeg = (-yaw * 180) / Math.PI
  const lens = outline(LENSES[eye])
  if (outwards * turnDeg > CLIPPING_TURN_DEG) {
    const end = (opening[0]?.[0] ?? x) + outwards * BESIDE_CORNER * distance
    for (const point of lens) if (outwards * (point[0] - end) > 0) point[0] = end
  }
  return {
    lens,
    opening: widened(opening, LIDS * distance),
    axis: axisOf(opening),
    iris: { x, y, radius: IRIS_RADIUS * distance },
  }
}

function axisOf(opening: Outline): EyeRegion['axis'] {
  const [outerX, outerY] = opening[0] ?? [0, 0]
  const [innerX, innerY] = opening[opening.length / 2] ?? [1, 0]
  const length = Math.hypot(innerX - outerX, innerY - outerY) || 1
  return { x: (innerX - outerX) / length, y: (innerY - outerY) / length }
}

/** Each point moved away from the middle by so many pixels. */
function widened(outline: Outline, by: number): Outline {
  const middle = [0, 1].map(
    (axis) => outline.reduce((sum, point) => sum + (point[axis] as number), 0) / outline.length,
  )
  const [middleX, middleY] = middle as [number, number]
  return outline.map(([x, y]) => {
    const length = Math.hypot(x - middleX, y - middleY) || 1
    return [x + ((x - middleX) * by) / length, y + ((y - middleY) * by) / length]
  })
}
