import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { type FaceAngles, faceAngles } from './face-angles.ts'
import { type FaceDetector, type FaceSquare, LEAST_SCORE, loadFaceDetector } from './face-detector.ts'
import { type FaceMeshModel, loadFaceMesh, type MeshPoint } from './face-mesh.ts'
import { type IrisCenter, loadIrisModel } from './iris-model.ts'

export type { MeshPoint } from './face-mesh.ts'

/** One face as the models see it, in pixels of the picture that was searched. */
export interface ModelFace extends FaceAngles {
  /** The less sure of detector and mesh, 0..1 in hundredths. */
  readonly score: number
  /** The detector's square around the middle of the mesh, as far as it lies in the picture, in whole pixels. */
  readonly box: readonly [x: number, y: number, width: number, height: number]
  /** 468 points. */
  readonly mesh: readonly MeshPoint[]
}

export interface FaceModel {
  find(picture: RgbPicture): Promise<ModelFace[]>
  /** Iris centers of one of the faces found, the left in the frame first, in pixels of the picture. */
  findIrises(picture: RgbPicture, face: ModelFace): Promise<readonly [IrisCenter, IrisCenter]>
}

let loading: Promise<FaceModel> | undefined

/**
 * A face detector, a face mesh and an iris model, loaded once a thread from the package `@vladmandic/human`. Of its
 * other models none is loaded: no recognition, no embeddings, no age, gender or emotion.
 * @throws Error when the package or its models are not installed
 */
export function loadFaceModel(): Promise<FaceModel> {
  loading ??= load()
  return loading
}

async function load(): Promise<FaceModel> {
  const [detector, mesh, irises] = await Promise.all([loadFaceDetector(), loadFaceMesh(), loadIrisModel()])
  return {
    find: async (picture) => search(detector, mesh, picture),
    findIrises: (picture, face) => irises.find(picture, face.mesh),
  }
}

function search(detector: FaceDetector, meshes: FaceMeshModel, picture: RgbPicture): ModelFace[] {
  return detector.detect(picture).flatMap((square) => {
    const mesh = meshes.fit(picture, square)
    if (hundredths(mesh.score) <= LEAST_SCORE) return []
    return {
      score: Math.min(hundredths(square.score), hundredths(mesh.score)),
      box: boxOf(mesh.points, square, picture),
      mesh: mesh.points,
      ...faceAngles(mesh, square),
    }
  })
}

function boxOf(points: readonly MeshPoint[], square: FaceSquare, picture: RgbPicture): ModelFace['box'] {
  const [x, width] = within(middle(points.map((point) => point[0])), square.width, picture.width)
  const [y, height] = within(middle(points.map((point) => point[1])), square.height, picture.height)
  return [x, y, width, height]
}

function middle(values: readonly number[]): number {
  return (Math.min(...values) + Math.max(...values)) / 2
}

/** Start and length of what lies in the picture of a stretch around its middle. */
function within(middle: number, length: number, pictureLength: number): [start: number, length: number] {
  const start = Math.max(0, middle - length / 2)
  const end = Math.min(pictureLength, middle + length / 2)
  return [Math.trunc(start), Math.trunc(end - start)]
}

function hundredths(share: number): number {
  return Math.round(100 * share) / 100
}
