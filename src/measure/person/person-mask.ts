import type { FaceAxes } from '../face/face-axes.ts'

/** Edge of what the network reads and of its answer, cells. @source the model's own input: selfie_segmentation.tflite. */
export const EDGE = 256

/** A part of a picture, px; it may reach out of it. */
export interface Window {
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
}

/** How surely each cell of a window shows a person. */
export interface PersonMask {
  readonly window: Window
  /** Row by row, `EDGE` x `EDGE` cells, 0..1. */
  readonly values: Float32Array
}

/** The whole of a picture. */
export function frameWindow({ width, height }: { readonly width: number; readonly height: number }): Window {
  return { left: 0, top: 0, width, height }
}

/**
 * Side of the window around the head, distances between the eyes.
 * @tuned on 54 marked photographs before unplain walls: with 9 the crown is read a third worse, in the whole frame as well.
 */
const SIDE = 6.5

/** How far above the eyes it begins, distances between them. @choice room above the highest hair and hats that are read. */
const ABOVE = 3.6

export function headWindow({ midEyes, eyeDistance }: Pick<FaceAxes, 'midEyes' | 'eyeDistance'>): Window {
  const side = SIDE * eyeDistance
  return { left: midEyes.x - side / 2, top: midEyes.y - ABOVE * eyeDistance, width: side, height: side }
}

/** The cell at a place of the picture, from the middle of the first one. */
export function cellAt({ window }: PersonMask, x: number, y: number): { column: number; row: number } {
  return {
    column: ((x - window.left) / window.width) * EDGE - 0.5,
    row: ((y - window.top) / window.height) * EDGE - 0.5,
  }
}
