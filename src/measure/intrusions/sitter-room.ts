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

/** True where shoulders, arms and what the sitter sits on may be. */
export function isBody({ midEyes, shoulders, faceWidth }: SitterRoom, { x, y }: Pixel): boolean {
  return y > shoulders && Math.abs(x - midEyes.x) < HALF_SITTER * faceWidth
}
