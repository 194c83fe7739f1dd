import type { LabPlanes } from '../../../color/lab.ts'

/** Weight of a difference in a* or b*, share of that in L*. @choice JPEG stores color coarser than lightness; no source. */
const CHROMA = 0.5

/** Pixels of the square that a change is the mean of. @choice definition: 3 x 3. */
const SQUARE = 9

/**
 * How much each pixel differs beyond what another way of making small does, in ΔE*ab (1976) with a* and b* halved: it
 * is compared with the range of colors in the 3 x 3 pixels around its place, so that an edge half a pixel elsewhere is
 * no difference, and what is left is averaged over 3 x 3 pixels.
 */
export function findChanges(one: LabPlanes, other: LabPlanes, width: number, height: number): Float32Array {
  const squares = new Float32Array(one.L.length)
  const channels = [
    ['L', 1],
    ['a', CHROMA],
    ['b', CHROMA],
  ] as const
  for (const [channel, weight] of channels) {
    const low = extreme(other[channel], width, height, Math.min)
    const high = extreme(other[channel], width, height, Math.max)
    for (const [i, value] of one[channel].entries()) {
      const beyond = weight * Math.max(0, (low[i] as number) - value, value - (high[i] as number))
      squares[i] = (squares[i] as number) + beyond * beyond
    }
  }
  return overSquares(squares.map(Math.sqrt), width, height, (sum, value) => sum + value, SQUARE)
}

function extreme(
  plane: Float32Array,
  width: number,
  height: number,
  of: (a: number, b: number) => number,
): Float32Array {
  return overSquares(plane, width, height, of, 1)
}

/** Joins the values of the 3 x 3 pixels around each pixel, the nearest ones repeated beyond the edge. */
function overSquares(
  plane: Float32Array,
  width: number,
  height: number,
  join: (a: number, b: number) => number,
  divisor: number,
): Float32Array {
  const across = new Float32Array(plane.length)
  const out = new Float32Array(plane.length)
  for (let i = 0; i < plane.length; i++) {
    const x = i % width
    const before = plane[x > 0 ? i - 1 : i] as number
    const after = plane[x < width - 1 ? i + 1 : i] as number
    across[i] = join(join(before, plane[i] as number), after)
  }
  for (let i = 0; i < plane.length; i++) {
    const above = across[i >= width ? i - width : i] as number
    const below = across[i < width * (height - 1) ? i + width : i] as number
    out[i] = join(join(above, across[i] as number), below) / divisor
  }
  return out
}
