import { bilinear } from '../../../imaging/bilinear.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { loadLiteNetwork } from '../../networks/lite-network.ts'
import { NETWORKS } from '../../networks/networks.ts'
import { type FaceAngles, faceAngles } from './face-angles.ts'
import { type FaceSquare, gridOf, placeInPicture } from './face-square.ts'
import type { MeshPoint } from './mesh-point.ts'

/** A face as the network draws it, its angles those in the square that it was shown. */
export interface FaceMesh extends FaceAngles {
  /** How sure it is that the square holds a face, 0..1. */
  readonly score: number
  /** 468 points. */
  readonly points: readonly MeshPoint[]
}

export interface FaceMeshModel {
  fit(picture: RgbPicture, square: FaceSquare): Promise<FaceMesh>
}

/** Edge of the square that the network reads, px. @source Kartynnik et al. 2019, and the model's own input. */
const MESH_INPUT = 192

/** Points of the mesh, and coordinates of each. @source Kartynnik et al. 2019, and the model's own output. */
const ANSWER = { points: 468, coordinates: 3 } as const

/** One picture, rows, columns and channels. @source the model's own input. */
const SHAPE = [1, MESH_INPUT, MESH_INPUT, 3]

/** Codes to the network's values, from 0 to 1. @source the graph of MediaPipe Face Mesh, face_landmark_cpu.pbtxt (from memory). */
const RANGE = { scale: 1 / 255, offset: 0 }

/**
 * Loads the face mesh of Kartynnik et al. 2019 (arXiv:1907.06724).
 * @throws Error when its files are missing
 */
export async function loadFaceMesh(): Promise<FaceMeshModel> {
  const network = await loadLiteNetwork(NETWORKS.faceMesh)
  return {
    async fit(picture, square) {
      const input = bilinear(picture, MESH_INPUT, gridOf(square, MESH_INPUT), RANGE, 'black')
      const [values, [logit] = []] = await network.run(input, SHAPE)
      if (values?.length !== ANSWER.points * ANSWER.coordinates || logit === undefined)
        throw new Error(`${NETWORKS.faceMesh.part.name} is not the network that was expected.`)
      const own = pointsOf(values)
      return {
        score: 1 / (1 + Math.exp(-logit)),
        points: placed(own, square),
        ...faceAngles(own),
      }
    },
  }
}

/** Points of the square in the picture. */
function placed(points: readonly MeshPoint[], square: FaceSquare): MeshPoint[] {
  const found: MeshPoint[] = []
  for (const [x, y, z] of points) {
    const [across, down] = placeInPicture(square, x / MESH_INPUT, y / MESH_INPUT)
    found.push([across, down, (z / MESH_INPUT) * square.size])
  }
  return found
}

function pointsOf(values: Float32Array): MeshPoint[] {
  return Array.from({ length: ANSWER.points }, (_, i) => [
    values[3 * i] as number,
    values[3 * i + 1] as number,
    values[3 * i + 2] as number,
  ])
}
