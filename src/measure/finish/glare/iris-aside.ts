import { quantile } from '../../../numbers/quantile.ts'
import type { EyePatch } from './eye-patch.ts'

/** Largest luminance of a dark iris, share of that of the skin around. @tuned on composites of photographs, of which one looks aside. */
const DARK = 0.5

/** How far beside where it was found an iris that looks aside is looked for, radii of the iris. @tuned on the same composites. */
const BESIDE = 1.2

/** How far about that place is looked, radii of the iris. @tuned on the same composites. */
const ABOUT = 0.45

/** How much of that place must be in the open eye, share of it. @tuned on the same composites. */
const OPEN = 0.4

/** How far the middle of the light must be from that of the iris, radii of the iris: the white of the eye is on one side. @tuned on the same composites. */
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
