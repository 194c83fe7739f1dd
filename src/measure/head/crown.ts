import { upperMedian } from '../../numbers/quantile.ts'
import type { FaceGeometry, Pixel } from '../face/face-axes.ts'
import { EYES_TO_CROWN, EYES_TO_FACE, EYES_TO_HEAD } from '../face/proportions.ts'
import { type Mask, OpenedMask, silhouetteOf } from './silhouette.ts'

/** Least length of a run that is hair or headwear, in face widths. @choice anything narrower is a strand that stands up */
const LEAST_RUN = 0.05
/**
 * Thickness of a strand across the frame, in face widths.
 * @choice 2 mm; a strand that lies across is as long as a run, but thin
 */
const STRAND = 0.016
/** Breadth in which the crown is looked for, in head breadths. @choice room for hair beside the crown */
const BREADTHS = 1.15
/**
 * Share of the hair's color distance from the backdrop from which a pixel is hair: pixels at its edge are partly backdrop.
 * @tuned on drawn and photographed portraits: at the backdrop's threshold the crown is 0.3 to 1 % of the frame too high
 */
const EDGE = 0.4
/**
 * Where the hair's color distance is read, in inter-eye distances below the first run.
 * @choice below its soft edge, above the forehead
 */
const HAIR = { from: 0.15, to: 0.5 }
/**
 * The mask is opened only down to here, in inter-eye distances below the top of the silhouette, until more is needed.
 * @choice nearly all crowns are above it, even below strands that stand up; it decides about speed alone
 */
const LIKELY = 1.2

/**
 * The crown: where hair or headwear begins in the head's columns, at the middle of the topmost run of pixels there that is
 * long enough and far enough from the backdrop in color. Single strands don't count. Null when the silhouette has no such
 * run, or when the face itself was taken for backdrop.
 * @param backdrop 1 where the picture is backdrop
 * @param distance color distance of each pixel from the backdrop
 * @param face geometry in pixels of the mask
 */
export function findCrown(backdrop: Mask, distance: Float32Array, face: FaceGeometry): Pixel | null {
  const silhouette = silhouetteOf(backdrop, face)
  if (!silhouette) return null
  const { eyeDistance } = face
  const top = Math.floor(silhouette.data.indexOf(1) / silhouette.width)
  const sitter = new OpenedMask(
    silhouette,
    Math.round((STRAND * faceWidth(face)) / 2),
    Math.ceil(top + LIKELY * eyeDistance),
  )
  const area = { ...headArea(silhouette, face), sitter, distance }
  const first = firstRun(area, 0)
  if (!first) return null
  const hair = medianDistance(area, first.y + HAIR.from * eyeDistance, first.y + HAIR.to * eyeDistance)
  return firstRun(area, EDGE * hair) ?? first
}

function faceWidth({ eyeDistance }: FaceGeometry): number {
  return eyeDistance / EYES_TO_FACE.mean
}

/** The part of a picture in which the crown is looked for. */
interface HeadArea {
  readonly sitter: OpenedMask
  /** Color distance of each pixel from the backdrop. */
  readonly distance: Float32Array
  readonly width: number
  readonly height: number
  /** Its columns, from `left` to one past the last. */
  readonly left: number
  readonly right: number
  /** Shortest run that counts, px. */
  readonly leastRun: number
}

/** The head's columns where the published proportions have its crown. */
function headArea({ width, height }: Mask, face: FaceGeometry) {
  const rise = face.eyeDistance / EYES_TO_CROWN.mean
  const center = face.midEyes.x - face.axis.x * rise
  const half = (BREADTHS * face.eyeDistance) / EYES_TO_HEAD.mean / 2
  return {
    width,
    height,
    left: Math.max(0, Math.round(center - half)),
    right: Math.min(width, Math.round(center + half)),
    leastRun: Math.max(2, Math.round(LEAST_RUN * faceWidth(face))),
  }
}

/** The middle of the longest run in the topmost row that has a long enough one, of pixels at least so far from the backdrop. */
function firstRun(area: HeadArea, least: number): Pixel | null {
  for (let y = 0; y < area.height; y++) {
    // `start` is an index into the whole mask.
    const { start, length } = longestRun(area, y, least)
    if (length >= area.leastRun) return { x: start - y * area.width + length / 2, y }
  }
  return null
}

function longestRun({ sitter, distance, width, left, right }: HeadArea, y: number, least: number) {
  const mask = sitter.withRows(y + 1)
  let end = y * width + left
  let longest = 0
  for (let i = end, length = 0; i < y * width + right; i++) {
    length = mask[i] === 1 && (distance[i] as number) >= least ? length + 1 : 0
    if (length > longest) {
      longest = length
      end = i + 1
    }
  }
  return { start: end - longest, length: longest }
}

/** Median color distance of the sitter's pixels between two heights, rounded to whole rows. */
function medianDistance(area: HeadArea, top: number, bottom: number): number {
  const { sitter, distance, width, height, left, right } = area
  const from = Math.round(top)
  const to = Math.min(height, Math.round(bottom))
  const mask = sitter.withRows(to)
  const found = new Float32Array(Math.max(0, to - from) * Math.max(0, right - left))
  let count = 0
  for (let y = from; y < to; y++) {
    for (let i = y * width + left; i < y * width + right; i++)
      if (mask[i] === 1) found[count++] = distance[i] as number
  }
  return upperMedian(found.subarray(0, count))
}
