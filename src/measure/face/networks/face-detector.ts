import { bilinear, gridOver } from '../../../imaging/bilinear.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { type LiteNetwork, loadLiteNetwork } from '../../networks/lite-network.ts'
import type { NetworkFile } from '../../networks/network-file.ts'
import { NETWORKS } from '../../networks/networks.ts'
import { areOfOneFace } from './one-face.ts'

type Place = readonly [x: number, y: number]

/** A face as the detector sees it, px of the picture searched from its corner. */
export interface DetectedFace {
  /** 0..1 */
  readonly score: number
  /** Middle of the box, from the brows to the chin. */
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
  /** The eye at the left of the face as the camera sees it, and the one at the right. */
  readonly eyes: readonly [Place, Place]
}

export interface FaceDetector {
  /** The faces in a picture, the surest first. */
  detect(picture: RgbPicture): Promise<DetectedFace[]>
}

/** One of the networks of Bazarevsky et al. 2019 (BlazeFace, arXiv:1907.05047). */
interface Kind {
  readonly network: NetworkFile
  /** Edge of the square in which the network sees the whole picture, px. */
  readonly input: number
  /** Anchors that it answers for: points in the middle of the cells of grids, several to a cell; cells in px. */
  readonly grids: readonly { readonly cell: number; readonly perCell: number }[]
}

/** For faces as small as a twentieth of the picture. @source face_detection_full_range of the same (from memory), and the model's own outputs. */
const FULL_RANGE: Kind = {
  network: NETWORKS.faceFullRange,
  input: 192,
  grids: [{ cell: 4, perCell: 1 }],
}

/** For faces near the camera. @source the graph of MediaPipe Face Detection, face_detection_short_range (from memory), and the model's own outputs. */
const SHORT_RANGE: Kind = {
  network: NETWORKS.faceShortRange,
  input: 128,
  grids: [
    { cell: 8, perCell: 2 },
    { cell: 16, perCell: 6 },
  ],
}

/** Codes to the networks' values, from -1 to 1. @source the same graphs (from memory). */
const RANGE = { scale: 2 / 255, offset: -1 }

/**
 * Values of an anchor, px of the input, and where among them the box's middle stands, its size, and the eyes, the first of six landmarks; places
 * are told from the anchor.
 * @source the same graphs and the models' own outputs.
 */
const ANSWER = { values: 16, middle: 0, width: 2, height: 3, eyes: [4, 6] } as const

/** Red, green and blue. @choice definition */
const CHANNELS = 3

/** Most faces told. @choice no source: a portrait has one, and each takes a run of the mesh. */
const MAX_FACES = 8

/** Least score of an answer that counts toward a face. @choice no source: half of what counts as a face. */
const LEAST_SCORE = 0.3

/**
 * Loads the face detector. The full range comes first: of 468 faces of 443 pictures the short range misses
 * 27, small ones and those of people in groups, the full range 7, one of which the short range sees.
 * @throws Error when its files are missing
 */
export async function loadFaceDetector(): Promise<FaceDetector> {
  const far = await loadKind(FULL_RANGE)
  let near: Promise<FaceDetector> | undefined
  return {
    async detect(picture) {
      const found = await far.detect(picture)
      if (found.length > 0) return found
      near ??= loadKind(SHORT_RANGE)
      return (await near).detect(picture)
    },
  }
}

async function loadKind(kind: Kind): Promise<FaceDetector> {
  const network = await loadLiteNetwork(kind.network)
  const anchors = anchorsOf(kind)
  return { detect: async (picture) => merged(await candidates(network, kind, anchors, picture)) }
}

/** Where the anchors lie, px of the input. */
function anchorsOf({ input, grids }: Kind): Place[] {
  return grids.flatMap(({ cell, perCell }) => {
    const across = input / cell
    return Array.from({ length: across * across * perCell }, (_, i): Place => {
      const at = Math.floor(i / perCell)
      return [cell * ((at % across) + 0.5), cell * (Math.floor(at / across) + 0.5)]
    })
  })
}

async function candidates(
  network: LiteNetwork,
  { network: { file }, input }: Kind,
  anchors: readonly Place[],
  picture: RgbPicture,
): Promise<DetectedFace[]> {
  const side = Math.max(picture.width, picture.height)
  const window = {
    left: (picture.width - side) / 2,
    top: (picture.height - side) / 2,
    width: side,
    height: side,
  }
  const values = bilinear(picture, input, gridOver(window, input), RANGE, 'black')
  const [boxes, logits] = await network.run(values, [1, input, input, CHANNELS])
  if (boxes?.length !== ANSWER.values * anchors.length || logits?.length !== anchors.length)
    throw new Error(`${file} is not the network that was expected.`)
  const faces: DetectedFace[] = []
  for (let i = 0; i < anchors.length; i++) {
    const score = 1 / (1 + Math.exp(-(logits[i] as number)))
    const anchor = anchors[i] as Place
    if (score > LEAST_SCORE) faces.push(faceAt(window, side / input, anchor, boxes, ANSWER.values * i, score))
  }
  return faces
}

/** @param first where among the boxes the answer of the anchor begins */
function faceAt(
  { left, top }: { readonly left: number; readonly top: number },
  scale: number,
  [anchorX, anchorY]: Place,
  boxes: Float32Array,
  first: number,
  score: number,
): DetectedFace {
  const value = (k: number) => boxes[first + k] as number
  const place = (k: number): Place => [
    left + scale * (anchorX + value(k)),
    top + scale * (anchorY + value(k + 1)),
  ]
  const [x, y] = place(ANSWER.middle)
  return {
    score,
    x,
    y,
    width: scale * value(ANSWER.width),
    height: scale * value(ANSWER.height),
    eyes: [place(ANSWER.eyes[0]), place(ANSWER.eyes[1])],
  }
}

/** One face for all candidates that overlap the surest of them, the mean of them by their scores, as the graphs do; at most MAX_FACES. */
function merged(found: readonly DetectedFace[]): DetectedFace[] {
  const faces: DetectedFace[] = []
  let left = found.toSorted((a, b) => b.score - a.score)
  while (faces.length < MAX_FACES) {
    const [surest] = left
    if (!surest) break
    const same = left.filter((one) => one === surest || areOfOneFace(one, surest))
    left = left.filter((one) => !same.includes(one))
    faces.push(meanOf(same, surest.score))
  }
  return faces
}

function meanOf(faces: readonly DetectedFace[], score: number): DetectedFace {
  const weight = faces.reduce((sum, one) => sum + one.score, 0)
  const mean = (value: (face: DetectedFace) => number) =>
    faces.reduce((sum, one) => sum + one.score * value(one), 0) / weight
  const eye = (k: 0 | 1): Place => [mean(({ eyes }) => eyes[k][0]), mean(({ eyes }) => eyes[k][1])]
  return {
    score,
    x: mean(({ x }) => x),
    y: mean(({ y }) => y),
    width: mean(({ width }) => width),
    height: mean(({ height }) => height),
    eyes: [eye(0), eye(1)],
  }
}
