import type { MeshPoint } from '../networks/face-model.ts'

/** A place in the picture, px. */
export type Place = readonly [x: number, y: number]

/**
 * Points of each eye, of the one at the left of the frame and of the one at the right: both corners, and the middles of
 * the upper and the lower lid. @source the 468-point face mesh of MediaPipe, canonical face model.
 */
const EYES = [
  { corners: [33, 133], lids: [159, 145] },
  { corners: [362, 263], lids: [386, 374] },
] as const

/**
 * How far above the middle of these points the iris stands, share of the distance between both eyes.
 * @tuned on 51 photographs with published marks, 2.4 in 100 in the mean, and on drawn sitters, 1.0: between them. On photographs it scatters by 1.0
 */
const ABOVE = 0.02

/** Where the middle of each iris is likely, the left in the frame first, by what the mesh knows of lids and corners. */
export function meshEyes(mesh: readonly MeshPoint[]): readonly [Place, Place] {
  const [left, right] = [middleOf(mesh, 0), middleOf(mesh, 1)]
  const [x, y] = [ABOVE * (right[0] - left[0]), ABOVE * (right[1] - left[1])]
  return [
    [left[0] + y, left[1] - x],
    [right[0] + y, right[1] - x],
  ]
}

/** Between the lids, px. */
export interface Opening {
  readonly height: number
  readonly middle: Place
}

export function openingOf(mesh: readonly MeshPoint[], eye: 0 | 1): Opening {
  const [upper, lower] = EYES[eye].lids.map((index) => pointOf(mesh, index)) as [MeshPoint, MeshPoint]
  return {
    height: Math.hypot(upper[0] - lower[0], upper[1] - lower[1]),
    middle: [(upper[0] + lower[0]) / 2, (upper[1] + lower[1]) / 2],
  }
}

function middleOf(mesh: readonly MeshPoint[], eye: 0 | 1): Place {
  const points = [...EYES[eye].corners, ...EYES[eye].lids].map((index) => pointOf(mesh, index))
  const mean = (axis: 0 | 1) => points.reduce((sum, point) => sum + point[axis], 0) / points.length
  return [mean(0), mean(1)]
}

function pointOf(mesh: readonly MeshPoint[], index: number): MeshPoint {
  const point = mesh[index]
  if (!point) throw new Error(`The face mesh has ${mesh.length} points; point ${index} was expected.`)
  return point
}
