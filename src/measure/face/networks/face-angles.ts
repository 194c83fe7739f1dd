import type { MeshPoint } from './mesh-point.ts'

/** Where a face looks, in radians; both 0 when it looks straight at the camera. */
export interface FaceAngles {
  /** Negative when the chin is raised. */
  readonly pitch: number
  /** Negative when the face is turned to the right of the frame. */
  readonly yaw: number
}

type Vector = readonly [x: number, y: number, z: number]

/** Points of the mesh: the top and the bottom of the face, and its sides at the left and right of the frame. @source the 468-point face mesh of MediaPipe, canonical face model. */
const POINTS = { top: 10, bottom: 152, left: 234, right: 454 } as const

/**
 * Azimuth and elevation of the direction that a face looks in, square to the axes through it, top to bottom and side to
 * side: yaw and pitch whichever way the head leans in the frame (rotated first by roll, then pitch, then yaw, the order of
 * ISO/IEC 19794-5, from memory). A mesh has depth in the units of x (Kartynnik et al. 2019, arXiv:1907.06724, section 2).
 */
export function faceAngles(points: readonly MeshPoint[]): FaceAngles {
  const at = (index: number) => points[index] as Vector
  const [x, y, z] = cross(less(at(POINTS.right), at(POINTS.left)), less(at(POINTS.bottom), at(POINTS.top)))
  return { pitch: -Math.atan2(y, Math.hypot(x, z)), yaw: Math.atan2(x, z) }
}

function less(a: Vector, b: Vector): Vector {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}
