import { bilinear } from '../../../imaging/bilinear.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { type GraphModel, loadModel } from './graph-model.ts'

/** A square around a face with some room, in whole pixels of the picture searched; it may reach out of the picture. */
export interface FaceSquare {
  readonly left: number
  readonly top: number
  /** Width and height differ by a pixel at most, by rounding. */
  readonly width: number
  readonly height: number
  /** 0..1 */
  readonly score: number
}

export interface FaceDetector {
  /** The faces in a picture, the surest first. */
  detect(picture: RgbPicture): FaceSquare[]
}

/** Edge of the square to which the network sees the whole picture stretched, px. @source the model's own input, of @vladmandic/human 3.3.6. */
const INPUT = 256

/** Codes to the network's values, from -1 to 1. @source BlazeFace (Bazarevsky et al. 2019) as packed in @vladmandic/human 3.3.6. */
const RANGE = { scale: 2 / 255, offset: -1 }

/** Anchors that it answers for: points in the middle of the cells of two grids, several to a cell; cells in px. @source BlazeFace (Bazarevsky et al. 2019) and the model's own outputs. */
const GRIDS = [
  { cell: 16, perCell: 2, score: 'Identity', box: 'Identity_2' },
  { cell: 32, perCell: 6, score: 'Identity_1', box: 'Identity_3' },
] as const
/** Values of an anchor: in px of the input the box's middle from the anchor, its size and six landmarks. @source the model's own outputs. */
const VALUES = 16

/** Most faces told. @choice no source: a portrait has one, and each takes a run of the mesh. */
const MAX_FACES = 8

/** Least score of a face that is told at all. @choice no source: half of what counts as a face, so that a weak one leaves a doubt. */
export const LEAST_SCORE = 0.3

/** Share of their union that two boxes have in common beyond which only the surer one counts. @choice the package's own value (minimum IoU 0.1 of @vladmandic/human). */
const MOST_OVERLAP = 0.1

/** Room around a face that the mesh reads it with, times the box. @source the value of @vladmandic/human 3.3.6. */
const ROOM = 1.4

/** In pixels of the input; x and y of the middle. */
interface Candidate {
  readonly score: number
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

/**
 * Loads the face detector of Bazarevsky et al. 2019 (BlazeFace, arXiv:1907.05047), in its size for 256 px.
 * @throws Error when its files are missing
 */
export async function loadFaceDetector(): Promise<FaceDetector> {
  const model = await loadModel(
    'blazeface',
    GRIDS.flatMap(({ score, box }) => [score, box]),
  )
  return {
    detect(picture) {
      const scaleX = picture.width / INPUT
      const scaleY = picture.height / INPUT
      return strongest(candidates(model, picture))
        .map((one) => squareAround(one, scaleX, scaleY))
        .filter(({ width, height }) => width > 0 && height > 0)
    },
  }
}

/** One picture, rows, columns and channels. @source the model's own input. */
const SHAPE: [number, number, number, number] = [1, INPUT, INPUT, 3]

function candidates(model: GraphModel, picture: RgbPicture): Candidate[] {
  const grid = { left: 0, top: 0, stepX: picture.width / INPUT, stepY: picture.height / INPUT }
  const input = bilinear(picture, INPUT, grid, RANGE, 'edge')
  const answers = model.run(input, SHAPE)
  return GRIDS.flatMap(({ cell, perCell }, g) => {
    const scores = answers[2 * g] as Float32Array
    const boxes = answers[2 * g + 1] as Float32Array
    const across = INPUT / cell
    const found: Candidate[] = []
    for (const [i, value] of scores.entries()) {
      const score = 1 / (1 + Math.exp(-value))
      if (score <= LEAST_SCORE) continue
      const at = Math.floor(i / perCell)
      const from = VALUES * i
      const x = cell * ((at % across) + 0.5) + (boxes[from] as number)
      const y = cell * (Math.floor(at / across) + 0.5) + (boxes[from + 1] as number)
      found.push({ score, x, y, width: boxes[from + 2] as number, height: boxes[from + 3] as number })
    }
    return found
  })
}

/** Without those that a surer one covers (non-maximum suppression), at most MAX_FACES. */
function strongest(found: readonly Candidate[]): Candidate[] {
  const kept: Candidate[] = []
  for (const one of [...found].sort((a, b) => b.score - a.score)) {
    if (kept.length === MAX_FACES) break
    if (kept.every((other) => overlap(one, other) < MOST_OVERLAP)) kept.push(one)
  }
  return kept
}

/** Share of the union of two boxes that both cover, 0..1. */
function overlap(a: Candidate, b: Candidate): number {
  const width = shared(a.x, a.width, b.x, b.width)
  const height = shared(a.y, a.height, b.y, b.height)
  const both = width * height
  return both === 0 ? 0 : both / (a.width * a.height + b.width * b.height - both)
}

function shared(middleA: number, lengthA: number, middleB: number, lengthB: number): number {
  const end = Math.min(middleA + lengthA / 2, middleB + lengthB / 2)
  return Math.max(0, end - Math.max(middleA - lengthA / 2, middleB - lengthB / 2))
}

function squareAround({ score, x, y, width, height }: Candidate, scaleX: number, scaleY: number): FaceSquare {
  const half = (ROOM * Math.max(width * scaleX, height * scaleY)) / 2
  const left = Math.round(x * scaleX - half)
  const top = Math.round(y * scaleY - half)
  return {
    score,
    left,
    top,
    width: Math.round(x * scaleX + half) - left,
    height: Math.round(y * scaleY + half) - top,
  }
}
