import { erode, inverted } from '../../kernels/masks.ts'
import type { Backdrop } from '../backdrop/backdrop.ts'
import { type FaceGeometry, placeOnFace } from '../face/face-axes.ts'

/** Half the width of face, neck and the trunk below them, where no body has a gap, inter-eye distances. @choice a neck is 1.7 wide (ANSUR II neck circumference, from memory) */
const HALF_TRUNK = 0.75
/** How far within the outline, inter-eye distances. @choice curls at the edge of hair let the backdrop through up to there; no source */
const CURLS = 0.35
/** How far within the outline anywhere else, inter-eye distances. @choice an arm is 1.5 wide (ANSUR II biceps circumference, from memory) */
const ARM = 1.6

/** Where eyes and lenses are, to either side of the middle of the eyes, inter-eye distances. @choice a pair of spectacles is 2.1 wide and its lenses 0.7 high; no source */
const LENSES = { across: 1.05, along: 0.4 } as const

/**
 * 1 where a body has no gap through which the backdrop shows, such as those between arms and trunk, beside a neck under long hair, and in
 * curls: in the middle of the sitter, and farther within the outline than an arm is wide. Not where eyes and lenses are, in which lights have
 * hard edges and may have the backdrop's color.
 */
export function withoutGaps({ mask, width, height }: Backdrop, face: FaceGeometry): Uint8Array {
  const { eyeDistance } = face
  const sitter = inverted(mask)
  const inner = erode(sitter, width, height, Math.round(CURLS * eyeDistance))
  const whole = erode(sitter, width, height, Math.round(ARM * eyeDistance))
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      if (inner[i] === 0) continue
      const place = placeOnFace(face, { x, y }, eyeDistance)
      const [across, along] = [Math.abs(place.across), Math.abs(place.along)]
      if (across <= HALF_TRUNK) whole[i] = 1
      if (across <= LENSES.across && along <= LENSES.along) whole[i] = 0
    }
  }
  return whole
}
