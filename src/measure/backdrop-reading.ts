import type { LabPlanes } from '../color/lab.ts'
import { GRAIN } from '../imaging/smoothing.ts'
import { layOutSmoothly } from '../kernels/edges.ts'
import { type Backdrop, borderSamples, findBackdrop } from './backdrop/backdrop.ts'
import { isPlain } from './backdrop/background.ts'
import type { FaceGeometry } from './face/face-axes.ts'
import { edgeLines } from './intrusions/backdrop-edges.ts'
import { findIntrusions, type Shown } from './intrusions/intrusions.ts'
import { sitterRoom, skullShare } from './intrusions/sitter-room.ts'
import type { Intrusion } from './schema/measurements.ts'

export interface BackdropReading {
  /** The backdrop as it is without what stands in it. */
  readonly backdrop: Backdrop
  /** Largest first; null when nothing tells the sitter from what stands there: no face, or a head that passes for backdrop. */
  readonly intrusions: Intrusion[] | null
}

/**
 * Finds what stands in the frame that is neither backdrop nor sitter, and fits the backdrop anew without it: a strip of
 * the room at the edge must neither bend the fit nor count as backdrop.
 * @param face geometry in pixels of the planes
 * @param filled 1 where straightening left wedges, which are neither backdrop nor sitter and told by themselves
 */
export function readBackdrop(
  lab: LabPlanes,
  width: number,
  height: number,
  face: FaceGeometry | null,
  filled: Uint8Array | null = null,
): BackdropReading {
  if (!face) return { backdrop: findBackdrop(lab, width, height, filled), intrusions: null }
  const { plain, smooth, slopes } = layOutSmoothly({ lab, width, height }, GRAIN)
  const first = findBackdrop(lab, width, height, filled, slopes)
  const room = sitterRoom(face)
  const border = borderSamples(width, height, filled)
  const lines = edgeLines(smooth, border, room)
  const shown = { picture: plain, border, lines, room, filled }
  const seen = refitted(shown, slopes, first)
  if (isPlain(first) || seen.intruded) return told(seen, shown)
  // The strip at the edge may be all that was fitted, and the backdrop the outlier. Then no line is hidden.
  const other = refitted(shown, slopes, { ...first, threshold: Number.POSITIVE_INFINITY })
  return told(isPlain(other.backdrop) ? other : seen, shown)
}

/**
 * Largest share of the skull that may pass for backdrop.
 * @tuned on tight crops of 28 photographs of packages: hats that fill the top of the frame pass for it by 0.43 and more, a pale face before a
 *   pale wall by 0.31, and all others by 0.16 at the most
 */
const MOST_SKULL = 0.25

/** Where the head itself passes for backdrop, what is beyond the backdrop may be the sitter, and nothing is known of the edges. */
function told({ backdrop, intrusions }: BackdropReading, { room }: Shown): BackdropReading {
  const isHead = skullShare(room, backdrop.mask, backdrop.width) > MOST_SKULL
  return { backdrop, intrusions: isHead ? null : intrusions }
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
  const backdrop = refit ? findBackdrop(shown.picture.lab, width, height, covered, slopes) : first
  return { backdrop, intrusions, intruded: count > 0 }
}
