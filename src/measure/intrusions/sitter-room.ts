import type { FaceGeometry, Pixel } from '../face/face-axes.ts'
import { EYES_TO_CROWN, EYES_TO_FACE } from '../face/proportions.ts'

// Shoulders and arms, in face widths: half of what a sitter takes up to either side below the shoulder line. The
// shoulders of an adult are 3 to 3.6 face widths broad (ANSUR II bideltoid over bizygomatic breadth, from memory);
// the rest is room for elbows.
const HALF_SITTER = 3.2
// The shoulder line begins this far below the chin, in face widths.
const SHOULDERS = 0.1
// Hair beside the face and above the skull that no edge of the backdrop is looked for in, as shares of the face.
const HAIR_BESIDE = 0.75
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
