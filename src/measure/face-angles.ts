import type { FaceSquare } from './face-detector.ts'
import { type FaceMesh, MESH_INPUT, type MeshPoint } from './face-mesh.ts'

/** In radians; both 0 when the face looks straight at the camera. */
export interface FaceAngles {
  /** Negative when the chin is raised. */
  readonly pitch: number
  /** Negative when the face is turned to the right of the frame. */
  readonly yaw: number
}

type Vector = readonly [x: number, y: number, z: number]

// Points of the mesh: the top and the bottom of the face, and its sides at the left and right of the frame.
const TOP = 10
const BOTTOM = 152
const LEFT = 234
const RIGHT = 454
// How much wider than a face its square is taken to be, which brings depth to the scale of x and y: the package's value.
const ROOM = 1.5

/**
 * Which way a face looks, by the axes through it, top to bottom and side to side, made perpendicular: turned first by yaw
 * about its upright axis, then in the frame, then by pitch about the level one (the order y, z, x of Eberly, "Euler Angle
 * Formulas", geometrictools.com).
 */
export function faceAngles({ points }: FaceMesh, { width, height }: FaceSquare): FaceAngles {
  const face = Math.max(width, height) / ROOM
  const at = (index: number): Vector => {
    const [x, y, z] = points[index] as MeshPoint
    return [x / face, y / face, z / MESH_INPUT]
  }
  const down = unit(less(at(BOTTOM), at(TOP)))
  const out = unit(cross(unit(less(at(RIGHT), at(LEFT))), down))
  const across = cross(down, out)
  return { pitch: Math.atan2(down[2], down[1]), yaw: Math.atan2(out[0], across[0]) }
}

function less(a: Vector, b: Vector): Vector {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

/** Of no length when the vector has none. */
function unit(v: Vector): Vector {
  const length = Math.hypot(...v) || 1
  return [v[0] / length, v[1] / length, v[2] / length]
}
