import { Ground } from '../../kernels/ground.ts'

/**
 * How far an outline is smeared, px at working size: what lies within the threshold there is backdrop after all.
 * @choice averaging and slopes reach about five pixels to each side, and twice that in a corner.
 */
export const SMEAR = 10

/** A ground that is flooded from the top edge and from the sides above row `sides`. @param outline 1 where no flood goes */
export function groundFrom(outline: Uint8Array, width: number, sides: number): Ground {
  const seeds = new Int32Array(width + 2 * sides)
  for (let x = 0; x < width; x++) seeds[x] = x
  for (let y = 0; y < sides; y++) {
    seeds[width + 2 * y] = y * width
    seeds[width + 2 * y + 1] = y * width + width - 1
  }
  return new Ground(outline, width, seeds)
}
