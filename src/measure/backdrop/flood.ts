import { floodWithin, type Ground } from '../../kernels/flood.ts'

/**
 * How far an outline is smeared, px at working size: what lies within the threshold there is backdrop after all.
 * @choice averaging and slopes reach about five pixels to each side, and twice that in a corner.
 */
const SMEAR = 10

/**
 * Pixels within the threshold that connect to the top edge or to the sides above row `sides`, without crossing an
 * outline (4-neighbors), down to row `reach`. 1 where flooded, else 0.
 */
export function floodFromEdge(ground: Ground, threshold: number, sides: number, reach: number): Uint8Array {
  const { width } = ground
  const edge: number[] = []
  for (let x = 0; x < width; x++) edge.push(x)
  for (let y = 0; y < sides; y++) edge.push(y * width, y * width + width - 1)
  return floodWithin(ground, threshold, edge, reach, SMEAR)
}
