import { floodFill } from '../../imaging/regions.ts'

/** What the flood runs over, row by row. */
export interface Ground {
  /** Color distance of each pixel from the backdrop. */
  readonly distance: Float32Array
  /** 1 where the flood stops although the distance is small. */
  readonly outline: Uint8Array
  readonly width: number
  readonly height: number
}

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
  const { distance, outline, width } = ground
  const end = Math.min(distance.length, reach * width)
  const ways = new Uint8Array(distance.length)
  for (let i = 0; i < end; i++) {
    if ((distance[i] as number) <= threshold) ways[i] = outline[i] === 1 ? SMEARED : FREE
  }
  const edge: number[] = []
  for (let x = 0; x < width; x++) edge.push(x)
  for (let y = 0; y < sides; y++) edge.push(y * width, y * width + width - 1)
  const mask = floodFill(ways, width, edge)
  grow(mask, ways, width, SMEAR)
  return mask
}

/** Where a flood may go: everywhere. @choice any code but 0. */
const FREE = 1
/** Where a flood may go only near what was flooded. @choice any other code. */
const SMEARED = 2

/** Adds to the mask what is smeared and at most `steps` pixels away from it through what is; it is so no more afterwards. */
function grow(mask: Uint8Array, ways: Uint8Array, width: number, steps: number): void {
  let front: number[] = []
  for (let i = 0; i < ways.length; i++) if (ways[i] === SMEARED && touches(mask, i, width)) front.push(i)
  for (const i of front) ways[i] = 0
  for (let step = 1; front.length > 0; step++) {
    const next: number[] = []
    const visit = (i: number) => {
      if (ways[i] !== SMEARED) return
      ways[i] = 0
      next.push(i)
    }
    for (const i of front) {
      mask[i] = 1
      if (step === steps) continue
      const x = i % width
      if (x > 0) visit(i - 1)
      if (x < width - 1) visit(i + 1)
      visit(i - width)
      visit(i + width)
    }
    front = next
  }
}

/** Whether a neighbor of the pixel is in the mask. */
function touches(mask: Uint8Array, i: number, width: number): boolean {
  const x = i % width
  return (
    mask[i - width] === 1 ||
    mask[i + width] === 1 ||
    (x > 0 && mask[i - 1] === 1) ||
    (x < width - 1 && mask[i + 1] === 1)
  )
}
