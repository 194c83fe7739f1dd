import type { Grid } from '../../../imaging/bilinear.ts'

/** A square around a face with some room, px of the picture from its corner; it may reach out of the picture. */
export interface FaceSquare {
  /** Its middle. */
  readonly x: number
  readonly y: number
  readonly size: number
  /** How far it is turned with the face's line of eyes, radians, clockwise. */
  readonly lean: number
}

/** Where a place of the square lies in the picture. @param across, down from its left upper corner, in shares of its side */
export function placeInPicture(
  { x, y, size, lean }: FaceSquare,
  across: number,
  down: number,
): readonly [x: number, y: number] {
  const [right, below] = [(across - 0.5) * size, (down - 0.5) * size]
  const [cos, sin] = [Math.cos(lean), Math.sin(lean)]
  return [x + right * cos - below * sin, y + right * sin + below * cos]
}

/** The middles of `cells` x `cells` cells that cover the square. */
export function gridOf(square: FaceSquare, cells: number): Grid {
  const half = 0.5 / cells
  const [x, y] = placeInPicture(square, half, half)
  const step = square.size / cells
  const [cos, sin] = [step * Math.cos(square.lean), step * Math.sin(square.lean)]
  // Places count from the picture's corner, pixels stand at whole numbers.
  return { first: [x - 0.5, y - 0.5], column: [cos, sin], row: [-sin, cos] }
}
