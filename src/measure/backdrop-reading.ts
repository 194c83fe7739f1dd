import type { LabPlanes } from '../color/lab.ts'
import { smoothPlanes } from '../imaging/smoothing.ts'
import { type Backdrop, borderSamples, findBackdrop } from './backdrop/backdrop.ts'
import { isPlain } from './backdrop/background.ts'
import { slopesOf } from './backdrop/outline.ts'
import type { FaceGeometry } from './face/face-axes.ts'
import { edgeLines } from './intrusions/backdrop-edges.ts'
import { findIntrusions, type Shown } from './intrusions/intrusions.ts'
import { sitterRoom } from './intrusions/sitter-room.ts'
import type { Intrusion } from './schema/measurements.ts'

export interface BackdropReading {
  /** The backdrop as it is without what stands in it. */
  readonly backdrop: Backdrop
  /** Largest first; null without a face, since nothing tells the sitter from what stands there. */
  readonly intrusions: Intrusion[] | null
}

/**
 * Finds what stands in the frame that is neither backdrop nor sitter, and fits the backdrop anew without it: a strip of
 * the room at the edge must neither bend the fit nor count as backdrop.
 * @param face geometry in pixels of the planes
 */
export function readBackdrop(
  lab: LabPlanes,
  width: number,
  height: number,
  face: FaceGeometry | null,
): BackdropReading {
  if (!face) return { backdrop: findBackdrop(lab, width, height), intrusions: null }
  const smooth = smoothPlanes(lab, width, height)
  const slopes = slopesOf(smooth.L, width, height)
  const first = findBackdrop(lab, width, height, null, slopes)
  const room = sitterRoom(face)
  const border = borderSamples(width, height, null)
  const lines = edgeLines({ lab: smooth, width, height }, border, room)
  const shown = { lab, border, lines, room }
  const seen = refitted(shown, slopes, first)
  if (isPlain(first) || seen.intruded) return seen
  // The strip at the edge may be all that was fitted, and the backdrop the outlier. Then no line is hidden.
  const other = refitted(shown, slopes, { ...first, threshold: Number.POSITIVE_INFINITY })
  return isPlain(other.backdrop) ? other : seen
}

/** @param slopes of the lightness without its grain */
function refitted(
  shown: Shown,
  slopes: Float32Array,
  first: Backdrop,
): BackdropReading & { readonly intruded: boolean } {
  const { width, height } = first
  const { covered, intrusions, count, few } = findIntrusions(shown, first)
  const refit = count > 0 && few
  const backdrop = refit ? findBackdrop(shown.lab, width, height, covered, slopes) : first
  return { backdrop, intrusions, intruded: count > 0 }
}
