import { meanOfSquares } from '../kernels/planes.ts'

/**
 * Grain is averaged over squares of twice this and 1, and slopes are taken over twice this, px at working size.
 * @choice no source: 5 x 5 pixels average grain to a fifth, and hair and outlines are wider at that size.
 */
export const GRAIN = 2

/** One plane of a picture at working size without its grain. */
export function smoothPlane(plane: Float32Array, width: number, height: number): Float32Array {
  return meanOfSquares(plane, width, height, GRAIN)
}
