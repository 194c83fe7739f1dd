import sharp from 'sharp'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import type { MeshPoint } from './face-mesh.ts'
import { loadModel } from './graph-model.ts'

export type IrisCenter = readonly [x: number, y: number]

export interface IrisModel {
  /** Iris centers of one face, the left in the frame first, in pixels of the picture. */
  find(picture: RgbPicture, mesh: readonly MeshPoint[]): Promise<readonly [IrisCenter, IrisCenter]>
}

// The network knows one eye only: the other is mirrored for it. Of its two heads, lids with brow and iris, only the second
// is run: five points of the iris, its center first.

/** Edge of the square around an eye that the network reads, px, in values from 0 to 1. @source Ablavatski et al. 2020 (MediaPipe Iris), and the model's own input. */
const INPUT = 64

/** Both eyes, rows, columns and channels. @source the model's own input. */
const SHAPE: [number, number, number, number] = [2, INPUT, INPUT, 3]

/** Values of one eye. @choice definition: rows, columns and channels. */
const EYE = 3 * INPUT * INPUT

/** Width of the square, times the eye's between its corners. @source the value of @vladmandic/human 3.3.6. */
const MARGIN = 2.3
const IRIS_HEAD = 'StatefulPartitionedCall/model/conv_iris/BiasAdd'

/** Values of the answer for one eye: five points of three. @source the model's own output. */
const IRIS_VALUES = 15

/**
 * How far to the right and down a square lands that is smaller than the network's and so enlarged, px of the network's.
 * @source libvips 8.18 by sharp 0.35.5, whose enlarging counts pixels from their corners: measured on bright spots of known place (tests/measure/face/networks).
 */
const ENLARGED_OFF = 0.5

/** What the square is filled with outside the picture, code. @choice mid-gray, which has no edge that looks like an eye. */
const GRAY = 128

/** Corners of the eyes, of the one at the left of the frame and of the one at the right. @source the 468-point face mesh of MediaPipe, canonical face model. */
const CORNERS = { left: [33, 133], right: [362, 263] } as const

/**
 * Loads the iris network of Ablavatski et al. 2020 (arXiv:2006.11341). The pipeline of the package that carries it mirrors
 * both eyes for it and only one answer back, which puts the iris at the left of the frame up to 8 % of the eye distance off.
 * @throws Error when its files are missing
 */
export async function loadIrisModel(): Promise<IrisModel> {
  const model = await loadModel('iris', [IRIS_HEAD])
  return {
    async find(picture, mesh) {
      const left = squareAround(mesh, CORNERS.left)
      const right = squareAround(mesh, CORNERS.right)
      const eyes = await Promise.all([read(picture, left, false), read(picture, right, true)])
      const input = new Float32Array(2 * EYE)
      for (const [eye, pixels] of eyes.entries())
        for (let i = 0; i < EYE; i++) input[EYE * eye + i] = (pixels[i] as number) / 255
      const [points] = model.run(input, SHAPE) as [Float32Array]
      return [
        placed(points.subarray(0, IRIS_VALUES), left, false),
        placed(points.subarray(IRIS_VALUES), right, true),
      ]
    },
  }
}

/** In whole pixels of the picture; it may reach out of it. */
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

/** The square at the network's size. */
async function read(picture: RgbPicture, square: Square, mirrored: boolean): Promise<Buffer> {
  const { size } = square
  return sharp(cut(picture, square), { raw: { width: size, height: size, channels: 3 } })
    .resize(INPUT, INPUT, { fit: 'fill', kernel: 'linear' })
    .flop(mirrored)
    .raw()
    .toBuffer()
}

/** The pixels of the square; gray outside the picture. */
function cut({ data, width, height }: RgbPicture, { left, top, size }: Square): Uint8Array {
  const out = new Uint8Array(3 * size * size).fill(GRAY)
  const from = Math.max(0, left)
  const to = Math.min(width, left + size)
  if (from >= to) return out
  for (let y = Math.max(0, top); y < Math.min(height, top + size); y++) {
    const row = data.subarray(3 * (width * y + from), 3 * (width * y + to))
    out.set(row, 3 * (size * (y - top) + from - left))
  }
  return out
}

function placed(points: Float32Array, { left, top, size }: Square, mirrored: boolean): IrisCenter {
  const off = size < INPUT ? ENLARGED_OFF : 0
  const [x, y] = [points[0] as number, points[1] as number]
  const right = (mirrored ? INPUT - x : x) - off
  return [left + (right / INPUT) * size, top + ((y - off) / INPUT) * size]
}
