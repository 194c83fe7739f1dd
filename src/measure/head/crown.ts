import { open } from '../../imaging/morphology.ts'
import { floodFill } from '../../imaging/regions.ts'
import { upperMedian } from '../../numbers/quantile.ts'
import type { FaceGeometry, Pixel } from '../face/face.ts'
import { EYES_TO_CROWN, EYES_TO_FACE, EYES_TO_HEAD } from '../face/proportions.ts'

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
// So far below the top of the silhouette lies what is read of it, nearly always; in inter-eye distances.
const ENOUGH = 1.2

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
  // Nearly always the uppermost part of the silhouette tells all; taking off strands takes time.
  const top = Math.floor(silhouette.indexOf(1) / backdrop.width)
  const enough = Math.ceil(top + ENOUGH * face.eyeDistance)
  for (const rows of [enough, backdrop.height]) {
    if (rows > backdrop.height) continue
    const crown = crownWithin(silhouette, rows, backdrop, distance, face)
    if (crown !== undefined) return crown
  }
  return null
}

/** The crown as the first `rows` rows tell it; null when they all have none, undefined when more rows are needed. */
function crownWithin(
  silhouette: Uint8Array,
  rows: number,
  { width, height }: Mask,
  distance: Float32Array,
  face: FaceGeometry,
): Pixel | null | undefined {
  const faceWidth = face.eyeDistance / EYES_TO_FACE.mean
  const radius = Math.round((STRAND * faceWidth) / 2)
  const opened = open(silhouette.subarray(0, rows * width), width, rows, radius)
  // What lies below the last row has a say this far up.
  const known = rows === height ? height : Math.max(0, rows - 2 * radius)
  const sitter = opened.subarray(0, known * width)
  const unknown = rows === height ? null : undefined
  const expected = face.eyeDistance / EYES_TO_CROWN.mean
  const centerX = face.midEyes.x - face.axis.x * expected
  const half = (COLUMNS * face.eyeDistance) / EYES_TO_HEAD.mean / 2
  const left = Math.max(0, Math.round(centerX - half))
  const right = Math.min(width, Math.round(centerX + half))
  const columns = { width, left, right, least: Math.max(2, Math.round(LEAST_RUN * faceWidth)) }
  const first = firstRun(sitter, columns, distance, 0)
  if (!first) return unknown
  const from = Math.round(first.y + HAIR_FROM * face.eyeDistance)
  const to = Math.min(height, Math.round(first.y + HAIR_TO * face.eyeDistance))
  if (to > known) return unknown
  const edge = EDGE * upperMedian(distancesWithin(sitter, columns, distance, from, to))
  const core = firstRun(sitter, columns, distance, edge)
  return core ?? (rows === height ? first : undefined)
}

interface Columns {
  readonly width: number
  readonly left: number
  readonly right: number
  /** Shortest run that counts, in pixels. */
  readonly least: number
}

/** The middle of the longest run in the topmost row that has a long enough one, of pixels at least so far from the backdrop. */
function firstRun(
  sitter: Uint8Array,
  { width, left, right, least }: Columns,
  distance: Float32Array,
  nearest: number,
): Pixel | null {
  for (let start = 0, y = 0; start < sitter.length; start += width, y++) {
    const run = longestRun(sitter, start + left, start + right, distance, nearest)
    if (run.length >= least) return { x: run.start - start + run.length / 2, y }
  }
  return null
}

function longestRun(
  sitter: Uint8Array,
  from: number,
  to: number,
  distance: Float32Array,
  nearest: number,
): { start: number; length: number } {
  let end = from
  let longest = 0
  for (let i = from, length = 0; i < to; i++) {
    length = sitter[i] === 1 && (distance[i] as number) >= nearest ? length + 1 : 0
    if (length > longest) {
      longest = length
      end = i + 1
    }
  }
  return { start: end - longest, length: longest }
}

/** Color distances of the sitter's pixels in the columns, from one row to another. */
function distancesWithin(
  sitter: Uint8Array,
  { width, left, right }: Columns,
  distance: Float32Array,
  from: number,
  to: number,
): Float32Array {
  const out = new Float32Array(Math.max(0, to - from) * Math.max(0, right - left))
  let count = 0
  for (let y = from; y < to; y++) {
    for (let i = y * width + left; i < y * width + right; i++)
      if (sitter[i] === 1) out[count++] = distance[i] as number
  }
  return out.subarray(0, count)
}

/** The connected region that is not backdrop and holds the middle of the face. */
function sitterFrom(backdrop: Mask, face: FaceGeometry): Uint8Array | null {
  const { data, width } = backdrop
  const seed = seedIn(backdrop, face)
  if (seed === undefined) return null
  const free = new Uint8Array(data.length)
  for (let i = 0; i < free.length; i++) free[i] = data[i] === 0 ? 1 : 0
  return floodFill(free, width, [seed])
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
