import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import sharp from 'sharp'
import type { MeshPoint } from './face-model.ts'
import type { RgbPicture } from './rgb-picture.ts'

/** The part of TensorFlow.js that is used here. */
export interface Tensors {
  loadGraphModel(handler: { load: () => Promise<object> }): Promise<GraphModel>
  tensor4d(values: Float32Array, shape: [number, number, number, number]): Tensor
  dispose(tensor: Tensor): void
}
export interface Tensor {
  data(): Promise<Float32Array>
}
interface GraphModel {
  execute(input: Tensor): Tensor
}
interface Manifest {
  readonly modelTopology: object
  readonly weightsManifest: readonly {
    readonly paths: readonly string[]
    readonly weights: readonly object[]
  }[]
}

export type IrisCenter = readonly [x: number, y: number]
export interface IrisModel {
  /** Iris centers of one face, the left in the frame first, in pixels of the picture. */
  find(picture: RgbPicture, mesh: readonly MeshPoint[]): Promise<readonly [IrisCenter, IrisCenter]>
}

// The model sees a square of 64 px around an eye, 2.3 times as wide as the eye is between its corners, and knows one
// eye only: the other is mirrored for it. It gives 71 points of lids and brow, then five of the iris, its center first.
const INPUT = 64
const MARGIN = 2.3
const POINTS = 76
const IRIS_CENTER = 71
// Corners of the eyes in the face mesh.
const LEFT_IN_FRAME = [33, 133] as const
const RIGHT_IN_FRAME = [362, 263] as const

/**
 * The iris model of the face library's package, run by ourselves: the library mirrors both eyes for it and mirrors
 * only one answer back, which puts the iris at the left of the frame up to 8 % of the eye distance off.
 */
export async function loadIrisModel(tf: Tensors, folder: string): Promise<IrisModel> {
  const model = await tf.loadGraphModel({ load: () => artifacts(folder) })
  return {
    async find(picture, mesh) {
      const squares = [squareAround(mesh, LEFT_IN_FRAME), squareAround(mesh, RIGHT_IN_FRAME)] as const
      const [left, right] = await Promise.all([
        cut(picture, squares[0], false),
        cut(picture, squares[1], true),
      ])
      const input = new Float32Array(2 * left.length)
      for (let i = 0; i < left.length; i++) {
        input[i] = (left[i] as number) / 255
        input[left.length + i] = (right[i] as number) / 255
      }
      const tensor = tf.tensor4d(input, [2, INPUT, INPUT, 3])
      const answer = model.execute(tensor)
      const points = await answer.data()
      tf.dispose(tensor)
      tf.dispose(answer)
      return [placed(points, 0, squares[0], false), placed(points, 1, squares[1], true)]
    },
  }
}

interface Square {
  readonly left: number
  readonly top: number
  readonly size: number
}

function squareAround(mesh: readonly MeshPoint[], corners: readonly [number, number]): Square {
  const [a, b] = corners.map((i) => mesh[i]) as [MeshPoint, MeshPoint]
  const size = Math.max(2, Math.round(MARGIN * Math.max(Math.abs(a[0] - b[0]), Math.abs(a[1] - b[1]))))
  return { left: Math.round((a[0] + b[0] - size) / 2), top: Math.round((a[1] + b[1] - size) / 2), size }
}

/** The square at the model's size; what lies outside the picture is grey. */
async function cut({ data, width, height }: RgbPicture, square: Square, mirrored: boolean): Promise<Buffer> {
  const { left, top, size } = square
  const from = { left: Math.min(Math.max(0, left), width - 1), top: Math.min(Math.max(0, top), height - 1) }
  const to = {
    right: Math.max(from.left + 1, Math.min(width, left + size)),
    bottom: Math.max(from.top + 1, Math.min(height, top + size)),
  }
  const part = await sharp(data, { raw: { width, height, channels: 3 } })
    .extract({ ...from, width: to.right - from.left, height: to.bottom - from.top })
    .extend({
      left: Math.max(0, from.left - left),
      top: Math.max(0, from.top - top),
      right: Math.max(0, left + size - to.right),
      bottom: Math.max(0, top + size - to.bottom),
      background: { r: 128, g: 128, b: 128 },
    })
    .raw()
    .toBuffer({ resolveWithObject: true })
  const { width: partWidth, height: partHeight } = part.info
  return sharp(part.data, { raw: { width: partWidth, height: partHeight, channels: 3 } })
    .resize(INPUT, INPUT, { fit: 'fill', kernel: 'linear' })
    .flop(mirrored)
    .raw()
    .toBuffer()
}

function placed(
  points: Float32Array,
  eye: 0 | 1,
  { left, top, size }: Square,
  mirrored: boolean,
): IrisCenter {
  const at = 3 * (eye * POINTS + IRIS_CENTER)
  const x = (points[at] as number) / INPUT
  const y = (points[at + 1] as number) / INPUT
  return [left + (mirrored ? 1 - x : x) * size, top + y * size]
}

/** The model's files as TensorFlow.js wants them (its model.json and one file of weights). */
async function artifacts(folder: string): Promise<object> {
  const { modelTopology, weightsManifest } = JSON.parse(
    await readFile(join(folder, 'iris.json'), 'utf8'),
  ) as Manifest
  const parts = await Promise.all(
    weightsManifest.flatMap(({ paths }) => paths.map((path) => readFile(join(folder, path)))),
  )
  const weights = Buffer.concat(parts)
  return {
    modelTopology,
    weightSpecs: weightsManifest.flatMap((group) => group.weights),
    weightData: weights.buffer.slice(weights.byteOffset, weights.byteOffset + weights.byteLength),
  }
}
