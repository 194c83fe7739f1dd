import type { FaceGeometry, Pixel } from './face.ts'
import { open } from './morphology.ts'
import { EYES_TO_CROWN, EYES_TO_FACE, EYES_TO_HEAD } from './proportions.ts'
import { median } from './surface.ts'

/** A 0/1 picture, row by row. */
export interface Mask {
  readonly data: Uint8Array
  readonly width: number
  readonly height: number
}

// A run of this share of the face width is hair or headwear; anything thinner is a fly-away strand.
const LEAST_RUN = 0.05
// A single strand that lies across the frame is as long as a run, but thin: lines thinner than this share of the
// face width are taken off first.
const STRAND = 0.016
// The head's columns: the published head breadth plus room for hair beside the crown.
const COLUMNS = 1.15

// A pixel at the edge of the hair is partly backdrop: it counts from this share of the hair's full color distance on.
const EDGE = 0.4
// The hair's full color distance is read this far below the silhouette's first row, in inter-eye distances.
const HAIR_FROM = 0.15
const HAIR_TO = 0.5

/**
 * Where the sitter's silhouette begins at the top: the topmost row in the head's columns with a run of
 * at least 5 % of the face width, at the middle of that run. Null when the face itself is not silhouette.
 * @param backdrop 1 where the picture is backdrop
 * @param distance color distance of each pixel from the backdrop
 * @param face geometry in pixels of the mask
 */
export function findCrown(backdrop: Mask, distance: Float32Array, face: FaceGeometry): Pixel | null {
  const silhouette = sitterFrom(backdrop, face)
  if (!silhouette) return null
  const { width, height } = backdrop
  const faceWidth = face.eyeDistance / EYES_TO_FACE.mean
  const sitter = open(silhouette, width, height, Math.round((STRAND * faceWidth) / 2))
  const expected = face.eyeDistance / EYES_TO_CROWN.mean
  const centerX = face.midEyes.x - face.axis.x * expected
  const half = (COLUMNS * face.eyeDistance) / EYES_TO_HEAD.mean / 2
  const left = Math.max(0, Math.round(centerX - half))
  const right = Math.min(width, Math.round(centerX + half))
  const columns = { width, left, right, least: Math.max(2, Math.round(LEAST_RUN * faceWidth)) }
  const first = firstRun(sitter, columns)
  if (!first) return null
  const hair: number[] = []
  const to = Math.min(height, Math.round(first.y + HAIR_TO * face.eyeDistance))
  for (let y = Math.round(first.y + HAIR_FROM * face.eyeDistance); y < to; y++) {
    for (let i = y * width + left; i < y * width + right; i++)
      if (sitter[i] === 1) hair.push(distance[i] as number)
  }
  const edge = EDGE * median(Float32Array.from(hair))
  const core = sitter.map((inside, i) => (inside === 1 && (distance[i] as number) >= edge ? 1 : 0))
  return firstRun(core, columns) ?? first
}

interface Columns {
  readonly width: number
  readonly left: number
  readonly right: number
  /** Shortest run that counts, in pixels. */
  readonly least: number
}

/** The middle of the longest run in the topmost row that has a long enough one. */
function firstRun(mask: Uint8Array, { width, left, right, least }: Columns): Pixel | null {
  for (let start = 0, y = 0; start < mask.length; start += width, y++) {
    const run = longestRun(mask, start + left, start + right)
    if (run.length >= least) return { x: run.start - start + run.length / 2, y }
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
