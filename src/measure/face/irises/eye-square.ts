import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { graySquare } from '../../../kernels/sampling.ts'
import { FOCUS_EYE_DISTANCE_PX } from '../../schema/finish.ts'

/** A square around an eye in gray, row by row, in cells that are as large in every file: 240 an inter-eye distance. */
export interface EyeSquare {
  /** Codes, 0 to 255. */
  readonly gray: Float32Array
  /** Where its first cell stands in the picture, and the step from cell to cell, px. */
  readonly left: number
  readonly top: number
  readonly step: number
}

/** Cells along each side. @choice an iris at most 27 cells in radius, found up to 30 cells beside where it was expected, and a margin. */
export const SQUARE = 124

/**
 * Weights of red, green and blue in the gray of an eye.
 * @tuned on 142 frontal photographs with published marks: red sets a brown iris apart from the white of the eye, and blue a blue one
 */
const GRAY = { red: 0.5, green: 0.3, blue: 0.2 } as const

/**
 * Reads the square around a place in the picture.
 * @param center px
 * @param eyeDistance inter-eye distance, px
 */
export function eyeSquare(
  picture: RgbPicture,
  [x, y]: readonly [number, number],
  eyeDistance: number,
): EyeSquare {
  const step = eyeDistance / FOCUS_EYE_DISTANCE_PX
  const [left, top] = [x - (step * (SQUARE - 1)) / 2, y - (step * (SQUARE - 1)) / 2]
  const gray = graySquare(picture, { left, top, step, size: SQUARE }, GRAY)
  return { gray, left, top, step }
}
