import { quantile } from '../../../numbers/quantile.ts'
import type { EyePatch } from './eye-patch.ts'

// The limits were found on composites of photographs, of which one looks aside.
// Darker than this share of the skin around, in linear light, is a dark iris.
const DARK = 0.5
// Where an iris that looks aside is looked for: so many radii beside where it was found, and how far about that.
const BESIDE = 1.2
const ABOUT = 0.45
// At least this share of that place must lie in the open eye.
const OPEN = 0.4
// White of the eye lies on one side: its middle is so many radii from that of the iris at least.
const ONE_SIDED = 0.25

/**
 * Whether a dark iris lies beside where it was found: eyes that look far to one side are found too near the middle, where
 * the white of the eye then looks like a light over the iris. Beside an iris that a light covers in part lies white.
 * @param light what shines on the iris as it was found
 * @param skin luminance of the skin around the eye
 */
export function irisIsAside(patch: EyePatch, light: Uint8Array, skin: number): boolean {
  const { opening, innerIris, luminance, width, height, irisPlace, axis } = patch
  let [along, count] = [0, 0]
  for (let i = 0; i < light.length; i++) {
    if (light[i] === 0 || innerIris[i] === 0) continue
    along += ((i % width) - irisPlace.x) * axis.x + (Math.floor(i / width) - irisPlace.y) * axis.y
    count++
  }
  if (Math.abs(along) < ONE_SIDED * irisPlace.radius * count) return false
  const away = (along > 0 ? -BESIDE : BESIDE) * irisPlace.radius
  const [x, y] = [irisPlace.x + away * axis.x, irisPlace.y + away * axis.y]
  const reach = ABOUT * irisPlace.radius
  const values: number[] = []
  for (let row = Math.max(0, Math.ceil(y - reach)); row <= Math.min(height - 1, y + reach); row++) {
    for (let column = Math.max(0, Math.ceil(x - reach)); column <= Math.min(width - 1, x + reach); column++) {
      const i = row * width + column
      if (opening[i] === 1 && Math.hypot(column - x, row - y) < reach) values.push(luminance[i] as number)
    }
  }
  return (
    values.length > OPEN * Math.PI * reach * reach && quantile(Float32Array.from(values), 0.5) < DARK * skin
  )
}
