import type { MeshPoint } from '../../src/measure/face/networks/face-model.ts'
import type { DecodedPicture } from '../../src/measure/file/decoded-picture.ts'
import { CANONICAL_FACE } from '../measure/face/canonical-face.ts'
import { MESH_TRIANGLES } from './mesh-triangles.ts'

type Vector = readonly [x: number, y: number, z: number]

const [NOSE, LEFT, RIGHT] = [4, 234, 454]
// The outline of the mesh, clockwise from the hairline.
const OUTLINE = [
  10, 338, 297, 332, 284, 251, 389, 356, 454, 323, 361, 288, 397, 365, 379, 378, 400, 377, 152, 148, 176, 149,
  150, 136, 172, 58, 132, 93, 234, 127, 162, 21, 54, 103, 67, 109,
]
/** Rings about it, by how far out they lie and how far they go along: ears and hair follow the face, the rest stays. */
const RINGS = [
  { out: 1.25, along: 0.7 },
  { out: 1.7, along: 0.3 },
  { out: 2.6, along: 0 },
]

interface Surface {
  readonly from: readonly Vector[]
  readonly to: readonly Vector[]
  readonly triangles: readonly (readonly [number, number, number])[]
}

/**
 * The picture of a face that looks straight ahead, drawn anew with the head rotated about the middle between the ears:
 * the chin raised by `nodDeg`, then the face turned to the right by `turnDeg`. The mesh gives the surface; its depth is brought to
 * that of the published canonical face, so that the angle is known without the depth that is measured by.
 */
export function turnedFace(
  picture: DecodedPicture,
  mesh: readonly MeshPoint[],
  turnDeg: number,
  nodDeg: number,
): DecodedPicture {
  const from = solid(mesh)
  const rotate = rotation(pivotOf(from), turnDeg, nodDeg)
  const data = Buffer.from(picture.data)
  const nearest = new Float32Array(picture.width * picture.height).fill(Number.POSITIVE_INFINITY)
  const surface = withRings({ from, to: from.map(rotate), triangles: MESH_TRIANGLES }, rotate)
  for (const corners of surface.triangles) {
    const [from, to] = [surface.from, surface.to].map((points) => corners.map((i) => points[i] as Vector))
    if (from && to) paint(picture, data, nearest, from, to)
  }
  return { ...picture, data }
}

function solid(mesh: readonly MeshPoint[]): Vector[] {
  const [left, right, nose] = [LEFT, RIGHT, NOSE].map((i) => mesh[i] as MeshPoint)
  const [cLeft, cRight, cNose] = [LEFT, RIGHT, NOSE].map((i) => CANONICAL_FACE.get(i) as Vector)
  if (!left || !right || !nose || !cLeft || !cRight || !cNose) throw new Error('The mesh is not whole.')
  const published = (cLeft[2] - cNose[2]) / (cRight[0] - cLeft[0])
  const scale = (published * (right[0] - left[0])) / ((left[2] + right[2]) / 2 - nose[2])
  return mesh.map(([x, y, z]) => [x, y, z * scale])
}

function pivotOf(points: readonly Vector[]): Vector {
  const [a, b] = [points[LEFT], points[RIGHT]] as [Vector, Vector]
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2]
}

/** x to the right, y down, z away from the camera. */
function rotation(pivot: Vector, turnDeg: number, nodDeg: number): (point: Vector) => Vector {
  const [turn, nod] = [(turnDeg * Math.PI) / 180, (nodDeg * Math.PI) / 180]
  return (point) => {
    const [x, y, z] = [point[0] - pivot[0], point[1] - pivot[1], point[2] - pivot[2]]
    const [y1, z1] = [y * Math.cos(nod) + z * Math.sin(nod), z * Math.cos(nod) - y * Math.sin(nod)]
    const [x2, z2] = [x * Math.cos(turn) - z1 * Math.sin(turn), x * Math.sin(turn) + z1 * Math.cos(turn)]
    return [x2 + pivot[0], y1 + pivot[1], z2 + pivot[2]]
  }
}

function withRings({ from, to, triangles }: Surface, rotate: (point: Vector) => Vector): Surface {
  const all = { from: [...from], to: [...to], triangles: [...triangles] }
  const [middleX, middleY] = [
    ((from[LEFT] as Vector)[0] + (from[RIGHT] as Vector)[0]) / 2,
    ((from[OUTLINE[0] as number] as Vector)[1] + (from[152] as Vector)[1]) / 2,
  ]
  const back = ((from[RIGHT] as Vector)[0] - (from[LEFT] as Vector)[0]) / 2
  let inner = OUTLINE
  for (const { out, along } of RINGS) {
    const outer = OUTLINE.map((index) => {
      const [x, y, z] = from[index] as Vector
      const rest: Vector = [middleX + out * (x - middleX), middleY + out * (y - middleY), z + 0.2 * back]
      const moved = rotate(rest)
      all.from.push(rest)
      // Behind all of the face, so that the face hides it.
      return (
        all.to.push([
          rest[0] + along * (moved[0] - rest[0]),
          rest[1] + along * (moved[1] - rest[1]),
          rest[2] + back,
        ]) - 1
      )
    })
    for (const [i, a] of inner.entries()) {
      const next = (i + 1) % inner.length
      const [b, c, d] = [inner[next], outer[i], outer[next]] as [number, number, number]
      all.triangles.push([a, b, c], [b, d, c])
    }
    inner = outer
  }
  return all
}

/** One triangle of the picture at its new place, where nothing nearer is. */
function paint(
  picture: DecodedPicture,
  data: Buffer,
  nearest: Float32Array,
  from: readonly Vector[],
  to: readonly Vector[],
): void {
  const [a, b, c] = to as [Vector, Vector, Vector]
  const area = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])
  if (Math.abs(area) < 1e-9) return
  const { width, height } = picture
  const [xs, ys] = [to.map(([x]) => x), to.map(([, y]) => y)]
  const [left, right] = [Math.max(0, Math.ceil(Math.min(...xs))), Math.min(width - 1, Math.max(...xs))]
  const [top, bottom] = [Math.max(0, Math.ceil(Math.min(...ys))), Math.min(height - 1, Math.max(...ys))]
  for (let y = top; y <= bottom; y++) {
    for (let x = left; x <= right; x++) {
      const u = ((x - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (y - a[1])) / area
      const v = ((b[0] - a[0]) * (y - a[1]) - (x - a[0]) * (b[1] - a[1])) / area
      if (u < -1e-6 || v < -1e-6 || u + v > 1 + 1e-6) continue
      const at = y * width + x
      const depth = mixed(to, 2, u, v)
      if (depth >= (nearest[at] as number)) continue
      nearest[at] = depth
      const [sourceX, sourceY] = [mixed(from, 0, u, v), mixed(from, 1, u, v)]
      for (let channel = 0; channel < 3; channel++)
        data[3 * at + channel] = sample(picture, sourceX, sourceY, channel)
    }
  }
}

/** A coordinate of the place in a triangle that lies u of the way to its second corner and v of the way to its third. */
function mixed(corners: readonly Vector[], axis: 0 | 1 | 2, u: number, v: number): number {
  const p = (corners[0] as Vector)[axis]
  return p + u * ((corners[1] as Vector)[axis] - p) + v * ((corners[2] as Vector)[axis] - p)
}

function sample({ data, width, height }: DecodedPicture, x: number, y: number, channel: number): number {
  const inX = Math.min(width - 1.001, Math.max(0, x))
  const inY = Math.min(height - 1.001, Math.max(0, y))
  const [left, top] = [Math.floor(inX), Math.floor(inY)]
  const value = (dx: 0 | 1, dy: 0 | 1) => data[3 * ((top + dy) * width + left + dx) + channel] as number
  const [right, down] = [inX - left, inY - top]
  const upper = value(0, 0) * (1 - right) + value(1, 0) * right
  const lower = value(0, 1) * (1 - right) + value(1, 1) * right
  return Math.round(upper * (1 - down) + lower * down)
}
