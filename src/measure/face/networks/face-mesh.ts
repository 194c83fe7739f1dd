import { bilinear } from '../../../imaging/bilinear.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import type { FaceSquare } from './face-detector.ts'
import { loadModel } from './graph-model.ts'

/** A point of the mesh: x and y in whole pixels of the picture searched, depth in pixels of the square that is read. */
export type MeshPoint = readonly [x: number, y: number, z: number]

export interface FaceMesh {
  /** How sure it is that the square holds a face, 0..1. */
  readonly score: number
  /** 468 points. */
  readonly points: readonly MeshPoint[]
}

export interface FaceMeshModel {
  fit(picture: RgbPicture, square: FaceSquare): FaceMesh
}

type Answers = [points: Float32Array, score: readonly [number]]

/** Edge of the square that the network reads, px. @source Kartynnik et al. 2019, and the model's own input. */
export const MESH_INPUT = 192

/** One picture, rows, columns and channels. @source the model's own input. */
const SHAPE: [number, number, number, number] = [1, MESH_INPUT, MESH_INPUT, 3]

/** Codes to the network's values, from 0 to 1. @source the values of @vladmandic/human 3.3.6. */
const RANGE = { scale: 1 / 255, offset: 0 }
const POINTS = 'Identity_2'
const SCORE = 'Identity_1'

/**
 * Loads the face mesh of Kartynnik et al. 2019 (arXiv:1907.06724).
 * @throws Error when its files are missing
 */
export async function loadFaceMesh(): Promise<FaceMeshModel> {
  const model = await loadModel('facemesh', [POINTS, SCORE])
  return {
    fit(picture, square) {
      const across = places(square.left, square.width, picture.width)
      const down = places(square.top, square.height, picture.height)
      const grid = { left: across.first, top: down.first, stepX: across.step, stepY: down.step }
      const input = bilinear(picture, MESH_INPUT, grid, RANGE, 'black')
      const [values, [score]] = model.run(input, SHAPE) as Answers
      return { score, points: placed(values, square) }
    },
  }
}

/** As TensorFlow's CropAndResize: a share of the picture counts from the middle of its first pixel to that of its last. */
function places(start: number, length: number, pictureLength: number): { first: number; step: number } {
  const share = (pictureLength - 1) / pictureLength
  return { first: start * share, step: (length * share) / (MESH_INPUT - 1) }
}

function placed(values: Float32Array, { left, top, width, height }: FaceSquare): MeshPoint[] {
  const points: MeshPoint[] = []
  for (let i = 0; i < values.length; i += 3) {
    const [x, y, z] = [values[i] as number, values[i + 1] as number, values[i + 2] as number]
    // Cut off to whole pixels, as what is measured from the mesh was tuned.
    points.push([
      Math.trunc(left + (width * x) / MESH_INPUT),
      Math.trunc(top + (height * y) / MESH_INPUT),
      Math.trunc(z),
    ])
  }
  return points
}
