import { upperMedian } from '../../numbers/quantile.ts'
import type { FaceGeometry, Pixel } from '../face/face-axes.ts'
import { EYES_TO_FACE } from '../face/proportions.ts'
import { columnsIn, type HeadColumns, type Rows, topRun } from './head-columns.ts'
import { type Mask, OpenedMask, silhouetteOf } from './silhouette.ts'

/**
 * Thickness of a strand across the frame, in face widths.
 * @choice 2 mm; a strand that lies across is as long as a run, but thin
 */
const STRAND = 0.016
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
 * The crown by the silhouette: where hair or headwear begins in the head's columns, at the middle of the topmost run of pixels there that is
 * long enough and far enough from the backdrop in color. Single strands don't count. Null when the silhouette has no such
 * run, or when the face itself was taken for backdrop.
 * @param backdrop 1 where the picture is backdrop
 * @param distance color distance of each pixel from the backdrop
 * @param face geometry in pixels of the mask
 */
export function findCrown(
  backdrop: Mask,
  distance: Float32Array,
  face: FaceGeometry,
  columns: HeadColumns,
): Pixel | null {
  const silhouette = silhouetteOf(backdrop, face)
  if (!silhouette) return null
  const { width, height, data } = silhouette
  const { eyeDistance } = face
  const top = Math.floor(data.indexOf(1) / width)
  const radius = Math.round((STRAND * eyeDistance) / EYES_TO_FACE.mean / 2)
  const sitter = new OpenedMask(silhouette, radius, Math.ceil(top + LIKELY * eyeDistance))
  const rows = { width, height, mask: (end: number) => sitter.withRows(end), weight: distance }
  const searched = columnsIn(columns, width)
  const first = topRun(rows, searched, 0)
  if (!first) return null
  const hair = medianDistance(
    rows,
    searched,
    first.row + HAIR.from * eyeDistance,
    first.row + HAIR.to * eyeDistance,
  )
  const { row, start, length } = topRun(rows, searched, EDGE * hair) ?? first
  return { x: start + length / 2, y: row }
}

/** Median color distance of the sitter's pixels between two heights, rounded to whole rows. */
function medianDistance(rows: Rows, { left, right }: HeadColumns, top: number, bottom: number): number {
  const { width, height, weight } = rows
  const from = Math.round(top)
  const to = Math.min(height, Math.round(bottom))
  const mask = rows.mask(to)
  const found = new Float32Array(Math.max(0, to - from) * Math.max(0, right - left))
  let count = 0
  for (let y = from; y < to; y++) {
    for (let i = y * width + left; i < y * width + right; i++)
      if (mask[i] === 1) found[count++] = weight[i] as number
  }
  return upperMedian(found.subarray(0, count))
}
