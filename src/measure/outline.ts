import { maskedMean } from './morphology.ts'
import { median } from './surface.ts'

// Lightness that changes faster than this, in L* per pixel at working size, is the outline of something: a stop of
// fall-off across the whole frame is 0.05. A white coat before white paper differs in nothing else.
const SLOPE = 0.5
// In a grainy picture or before a rough wall, the slope of the backdrop itself says what an outline is.
const SLOPES = 5
// Grain is averaged over squares of 2 x this + 1 pixels, and the slope is taken over twice this.
const RADIUS = 2

/**
 * Marks (1) where lightness changes faster than a backdrop's can.
 * @param border indexes of pixels that are backdrop if anything is
 */
export function findOutlines(
  lightness: Float32Array,
  width: number,
  height: number,
  border: Int32Array,
): Uint8Array {
  const everywhere = new Uint8Array(lightness.length).fill(1)
  const smooth = maskedMean(lightness, everywhere, width, height, RADIUS)
  const slope = slopes(smooth, width, height)
  const usual = median(Float32Array.from(border, (i) => slope[i] as number))
  const least = Math.max(SLOPE, SLOPES * usual)
  return Uint8Array.from(slope, (value) => (value > least ? 1 : 0))
}

function slopes(smooth: Float32Array, width: number, height: number): Float32Array {
  const out = new Float32Array(smooth.length)
  for (let y = 0; y < height; y++) {
    const above = Math.max(0, y - RADIUS)
    const below = Math.min(height - 1, y + RADIUS)
    for (let x = 0; x < width; x++) {
      const left = Math.max(0, x - RADIUS)
      const right = Math.min(width - 1, x + RADIUS)
      const at = (column: number, row: number) => smooth[row * width + column] as number
      const dx = (at(right, y) - at(left, y)) / (right - left)
      const dy = (at(x, below) - at(x, above)) / (below - above)
      out[y * width + x] = Math.sqrt(dx * dx + dy * dy)
    }
  }
  return out
}
