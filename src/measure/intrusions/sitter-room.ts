import type { FaceGeometry, Pixel } from '../face/face-axes.ts'
import { EYES_TO_CROWN, EYES_TO_FACE } from '../face/proportions.ts'

/**
 * How far shoulders and arms reach to either side below the shoulder line, face widths.
 * @choice the shoulders of an adult are 3 to 3.6 face widths broad (ANSUR II bideltoid over bizygomatic breadth, from memory); the rest
 * is room for elbows.
 */
const HALF_SITTER = 3.2

/** How far below the chin the shoulder line begins, face widths. @choice where shoulders that are drawn up are, no source. */
const SHOULDERS = 0.1

/** Hair beside the face that no edge of the backdrop is looked for in, share of the face width. @choice big hair, no source. */
const HAIR_BESIDE = 0.75

/** Hair above the skull that no edge of the backdrop is looked for in, share of the face width. @choice big hair, no source. */
const HAIR_ABOVE = 0.9

export interface SitterRoom {
  readonly faceWidth: number
  readonly midEyes: Pixel
  /** Row from which on shoulders and arms may be anywhere beside the sitter. */
  readonly shoulders: number
  /** Least distance between the eyes and an edge of the backdrop beside, and above the head. */
  readonly beside: number
  readonly above: number
}

/** Where the sitter may be, by the published proportions of head and shoulders. */
export function sitterRoom({ midEyes, eyeDistance, chin }: FaceGeometry): SitterRoom {
  const faceWidth = eyeDistance / EYES_TO_FACE.mean
  return {
    faceWidth,
    midEyes,
    shoulders: chin.y + SHOULDERS * faceWidth,
    beside: HAIR_BESIDE * faceWidth,
    above: (HAIR_ABOVE * eyeDistance) / EYES_TO_CROWN.mean,
  }
}

/**
 * True where shoulders, arms and what the sitter sits on may be.
 * @param raised how far above the shoulder line that is still so, px
 */
export function isBody({ midEyes, shoulders, faceWidth }: SitterRoom, { x, y }: Pixel, raised = 0): boolean {
  return y > shoulders - raised && Math.abs(x - midEyes.x) < HALF_SITTER * faceWidth
}

/** How high hair is taken for hair at the most, times the height up to which no edge is looked for. @choice hair that stands up, no source. */
const HIGH_HAIR = 1.4

/** True above the eyes where hair may be: locks that catch the light before a dark backdrop show apart from the head. */
export function isHair({ midEyes, beside, above }: SitterRoom, { x, y }: Pixel): boolean {
  return y < midEyes.y && ((x - midEyes.x) / beside) ** 2 + ((y - midEyes.y) / (HIGH_HAIR * above)) ** 2 < 1
}

/** How much of the skull, as far as hair hardly reaches beyond it, passes for backdrop: a share of it. */
export function skullShare(
  { midEyes, faceWidth, above }: SitterRoom,
  mask: Uint8Array,
  width: number,
): number {
  const height = mask.length / width
  let [n, backdrop] = [0, 0]
  const radius = faceWidth / 2
  for (let y = Math.max(0, Math.floor(midEyes.y - above)); y < Math.min(height, midEyes.y); y++) {
    const half = radius * Math.sqrt(Math.max(0, 1 - ((midEyes.y - y) / above) ** 2))
    for (let x = Math.max(0, Math.ceil(midEyes.x - half)); x < Math.min(width, midEyes.x + half); x++) {
      n++
      backdrop += mask[y * width + x] as number
    }
  }
  return n === 0 ? 0 : backdrop / n
}
