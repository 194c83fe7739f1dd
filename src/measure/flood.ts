/** What the flood runs over, row by row. */
export interface Ground {
  /** Color distance of each pixel from the backdrop. */
  readonly distance: Float32Array
  /** 1 where the flood stops although the distance is small. */
  readonly outline: Uint8Array
  readonly width: number
  readonly height: number
}

// An outline is smeared over about five pixels to each side, and twice that in a corner: what lies within the
// threshold there is backdrop after all.
const SMEAR = 10

/**
 * Pixels within the threshold that connect to the top edge or to the sides above row `sides`, without crossing an
 * outline (4-neighbours), down to row `reach`. 1 where flooded, else 0.
 */
export function floodFromEdge(ground: Ground, threshold: number, sides: number, reach: number): Uint8Array {
  const { distance, outline, width } = ground
  const mask = new Uint8Array(distance.length)
  const edge: number[] = []
  for (let x = 0; x < width; x++) edge.push(x)
  for (let y = 0; y < sides; y++) edge.push(y * width, y * width + width - 1)
  const end = reach * width
  const within = (i: number) => i < end && (distance[i] as number) <= threshold
  spread(mask, width, edge, Number.POSITIVE_INFINITY, (i) => outline[i] === 0 && within(i))
  const rim: number[] = []
  for (let i = 0; i < end; i++) if (mask[i] === 1) rim.push(i)
  spread(mask, width, rim, SMEAR, (i) => outline[i] === 1 && within(i))
  return mask
}

/** Sets the starts that are open and all that is open around them, at most `steps` pixels away. */
function spread(
  mask: Uint8Array,
  width: number,
  starts: readonly number[],
  steps: number,
  open: (i: number) => boolean,
): void {
  let front: number[] = []
  const visit = (i: number) => {
    if (mask[i] === 0 && open(i)) {
      mask[i] = 1
      front.push(i)
    }
  }
  for (const i of starts) {
    if (mask[i] === 1) front.push(i)
    else visit(i)
  }
  for (let step = 0; step < steps && front.length > 0; step++) {
    const from = front
    front = []
    for (const i of from) {
      const x = i % width
      if (x > 0) visit(i - 1)
      if (x < width - 1) visit(i + 1)
      if (i >= width) visit(i - width)
      visit(i + width)
    }
  }
}
