import type { FaceGeometry, Pixel } from './face.ts'
import { EYES_TO_CROWN, EYES_TO_FACE, EYES_TO_HEAD } from './proportions.ts'

/** A 0/1 picture, row by row. */
export interface Mask {
  readonly data: Uint8Array
  readonly width: number
  readonly height: number
}

// A run of this share of the face width is hair or headwear; anything thinner is a fly-away strand.
const LEAST_RUN = 0.05
// The head's columns: the published head breadth plus room for hair beside the crown.
const COLUMNS = 1.15

/**
 * Where the sitter's silhouette begins at the top: the topmost row in the head's columns with a run of
 * at least 5 % of the face width, at the middle of that run. Null when the face itself is not silhouette.
 * @param backdrop 1 where the picture is backdrop
 * @param face geometry in pixels of the mask
 */
export function findCrown(backdrop: Mask, face: FaceGeometry): Pixel | null {
  const sitter = sitterFrom(backdrop, face)
  if (!sitter) return null
  const { width, height } = backdrop
  const expected = face.eyeDistance / EYES_TO_CROWN.mean
  const centerX = face.midEyes.x - face.axis.x * expected
  const half = (COLUMNS * face.eyeDistance) / EYES_TO_HEAD.mean / 2
  const left = Math.max(0, Math.round(centerX - half))
  const right = Math.min(width, Math.round(centerX + half))
  const least = Math.max(2, Math.round((LEAST_RUN * face.eyeDistance) / EYES_TO_FACE.mean))
  for (let y = 0; y < height; y++) {
    const run = longestRun(sitter, y * width + left, y * width + right)
    if (run.length >= least) return { x: run.start - y * width + run.length / 2, y }
  }
  return null
}

function longestRun(mask: Uint8Array, from: number, to: number): { start: number; length: number } {
  let best = { start: from, length: 0 }
  for (let i = from, length = 0; i < to; i++) {
    length = mask[i] === 1 ? length + 1 : 0
    if (length > best.length) best = { start: i - length + 1, length }
  }
  return best
}

/** The connected region that is not backdrop and holds the middle of the face. */
function sitterFrom(backdrop: Mask, face: FaceGeometry): Uint8Array | null {
  const { data, width, height } = backdrop
  const seed = seedIn(backdrop, face)
  if (seed === undefined) return null
  const sitter = new Uint8Array(data.length)
  const stack = new Int32Array(data.length)
  let top = 0
  const visit = (i: number) => {
    if (data[i] === 0 && sitter[i] === 0) {
      sitter[i] = 1
      stack[top++] = i
    }
  }
  visit(seed)
  while (top > 0) {
    const i = stack[--top] as number
    const x = i % width
    if (x > 0) visit(i - 1)
    if (x < width - 1) visit(i + 1)
    if (i >= width) visit(i - width)
    if (i < width * (height - 1)) visit(i + width)
  }
  return sitter
}

/** A pixel that belongs to the sitter: an iris, or the root of the nose. */
function seedIn({ data, width, height }: Mask, face: FaceGeometry): number | undefined {
  for (const { x, y } of [face.leftEye, face.rightEye, face.midEyes]) {
    const column = Math.floor(x)
    const row = Math.floor(y)
    if (column < 0 || row < 0 || column >= width || row >= height) continue
    const index = row * width + column
    if (data[index] === 0) return index
  }
  return undefined
}
