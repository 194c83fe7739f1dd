import type { MeshPoint } from '../../../src/measure/face/networks/mesh-point.ts'

type Vector = readonly [x: number, y: number, z: number]

/** A landmark of the published face: its index in the mesh, its place in cm and its weight in the fit. */
interface Landmark {
  readonly index: number
  readonly at: Vector
  readonly weight: number
}

// The canonical face model of MediaPipe and the landmarks and weights of its pose fit (Apache-2.0,
// mediapipe/modules/face_geometry/data: canonical_face_model.obj, geometry_pipeline_metadata_landmarks.pbtxt): index
// at the left of the frame, index at the right, x, y, z, weight; x to the right, y up, z towards the camera.
const PAIRS: readonly (readonly [number, number, number, number, number, number])[] = [
  [33, 263, -4.445859, 2.663991, 3.173422, 0.058724168688059],
  [54, 284, -6.279331, 6.615427, 1.42585, 0.007667080033571],
  [67, 297, -3.523964, 8.005976, 3.729163, 0.009078059345484],
  [117, 346, -5.258659, 0.945811, 2.974312, 0.009791937656701],
  [119, 348, -3.300681, 0.861641, 3.872784, 0.014565368182957],
  [121, 350, -1.820731, 1.467954, 4.224124, 0.018591361120343],
  [127, 356, -7.743095, 2.364999, -2.005167, 0.005197994410992],
  [129, 358, -1.785794, -0.978284, 4.85047, 0.120625205338001],
  [132, 361, -7.270895, -2.890917, -2.252455, 0.005560018587857],
  [133, 362, -1.856432, 2.585245, 3.757904, 0.05328618362546],
  [136, 365, -5.085276, -7.17859, 0.714711, 0.066890455782413],
  [143, 372, -6.407571, 2.236021, 1.560843, 0.014816547743976],
  [147, 376, -6.234883, -1.94443, 1.663542, 0.014262833632529],
  [198, 420, -1.246815, 0.230297, 5.681036, 0.025462191551924],
  [205, 425, -3.832928, -1.537326, 4.137731, 0.047252278774977],
]
const MIDDLE: readonly (readonly [number, number, number, number])[] = [
  [4, -0.46317, 7.58658, 0.070909939706326],
  [6, 2.473255, 5.788627, 0.032100144773722],
  [10, 8.261778, 4.481535, 0.008446550928056],
]
/** Of the same model, beside the landmarks: the chin and the widest points of the face. */
const OTHERS: readonly (readonly [number, Vector])[] = [
  [152, [0, -9.403378, 4.264492]],
  [234, [-7.664182, 0.673132, -2.435867]],
  [454, [7.664182, 0.673132, -2.435867]],
]

const LANDMARKS: readonly Landmark[] = [
  ...PAIRS.flatMap(([left, right, x, y, z, weight]): Landmark[] => [
    { index: left, at: [x, y, z], weight },
    { index: right, at: [-x, y, z], weight },
  ]),
  ...MIDDLE.map(([index, y, z, weight]): Landmark => ({ index, at: [0, y, z], weight })),
]

/** The published face by index of the mesh, in cm: x to the right, y down, z away from the camera, as a mesh has them. */
export const CANONICAL_FACE: ReadonlyMap<number, Vector> = new Map(
  [...LANDMARKS.map(({ index, at }) => [index, at] as const), ...OTHERS].map(([index, [x, y, z]]) => [
    index,
    [x, -y, -z],
  ]),
)

export interface Pose {
  /** Azimuth and elevation in degrees of the direction that the face looks in: to the right, and up. */
  readonly turnDeg: number
  readonly nodDeg: number
}

/**
 * The pose in which the published face lies nearest to a mesh in x and y alone: the affine fit by weighted least squares,
 * its rows made perpendicular (scaled orthographic projection). Depth, as the mesh tells it, is not looked at.
 */
export function canonicalPose(mesh: readonly MeshPoint[]): Pose {
  const places = LANDMARKS.map(({ index, weight }) => {
    const [x, y] = mesh[index] as MeshPoint
    return { at: CANONICAL_FACE.get(index) as Vector, seen: [x, y] as const, weight }
  })
  const total = places.reduce((sum, { weight }) => sum + weight, 0)
  const mean = (value: (place: (typeof places)[number]) => number) =>
    places.reduce((sum, place) => sum + place.weight * value(place), 0) / total
  const middle = [0, 1, 2].map((k) => mean(({ at }) => at[k] as number))
  const offset = ({ at }: (typeof places)[number], k: number) => (at[k] as number) - (middle[k] as number)
  const products = [0, 1, 2].map((i) => [0, 1, 2].map((k) => mean((p) => offset(p, i) * offset(p, k))))
  const row = (axis: 0 | 1) => {
    const seen = mean((p) => p.seen[axis])
    return unit(
      solved(
        products,
        [0, 1, 2].map((i) => mean((p) => offset(p, i) * (p.seen[axis] - seen))),
      ),
    )
  }
  let [across, down] = [row(0), row(1)]
  for (let round = 0; round < 20; round++) {
    const half = dot(across, down) / 2
    const [a, d] = [across, down]
    across = unit(a.map((value, k) => value - half * (d[k] as number)))
    down = unit(d.map((value, k) => value - half * (a[k] as number)))
  }
  const [ax = 0, ay = 0, az = 0] = across
  const [dx = 0, dy = 0, dz = 0] = down
  const awayZ = ax * dy - ay * dx
  return { turnDeg: (Math.atan2(-az, awayZ) * 180) / Math.PI, nodDeg: (Math.asin(dz) * 180) / Math.PI }
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, k) => sum + value * (b[k] as number), 0)
}

function unit(v: readonly number[]): number[] {
  const length = Math.hypot(...v)
  return v.map((value) => value / length)
}

/** Cramer's rule. */
function solved(matrix: readonly number[][], right: readonly number[]): number[] {
  const whole = determinant(matrix)
  return [0, 1, 2].map(
    (k) =>
      determinant(
        matrix.map((values, i) => values.map((value, j) => (j === k ? (right[i] as number) : value))),
      ) / whole,
  )
}

function determinant([a, b, c]: readonly (readonly number[])[]): number {
  const [a0 = 0, a1 = 0, a2 = 0] = a ?? []
  const [b0 = 0, b1 = 0, b2 = 0] = b ?? []
  const [c0 = 0, c1 = 0, c2 = 0] = c ?? []
  return a0 * (b1 * c2 - b2 * c1) - a1 * (b0 * c2 - b2 * c0) + a2 * (b0 * c1 - b1 * c0)
}
