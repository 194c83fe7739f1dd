import type { Doubt, Measurements } from '../../measure/schema/measurements.ts'

/** Whether a picture was searched for faces and none was found. */
export function isFaceless({ face }: Pick<Measurements, 'face'>): boolean {
  return face !== null && face !== undefined && face.count === 0
}

const PLACE: Doubt = 'backdrop-not-plain'

/** Whether the sitter stands before something that is no plain backdrop. */
export function isBeforePlace({ background }: Pick<Measurements, 'background'>): boolean {
  return background?.doubts.includes(PLACE) ?? false
}

const CUT: Doubt = 'crown-out-of-frame'

/** Whether the top edge of the frame cuts the head or touches it, and nothing else about the head is in doubt. */
export function isHeadCut({ head }: Pick<Measurements, 'head'>): boolean {
  return head?.doubts.length === 1 && head.doubts[0] === CUT
}

/**
 * Chroma that at least 0.5 % of the pixels of a picture in color reach, C*ab.
 * @tuned on 99 photographs of people and 24 drawn portraits in color, of which the palest reach 12 and 20, and on 24 pictures in black and
 * white, which have 0; a tone of 3 or 4, as of warm paper, is no color either.
 */
export const COLORLESS = 5

/** Whether a picture was decoded and has no color: black and white, in whatever color space it is saved. */
export function isColorless({ peakChromaC }: Pick<Measurements, 'peakChromaC'>): boolean {
  return peakChromaC !== null && peakChromaC < COLORLESS
}
