import { dot, type Triple } from '../numbers/matrix3.ts'
import { D50, SRGB, toXyzD50 } from './colorants.ts'
import { linearLight, srgbToLinear } from './transfer.ts'

/** CIE L*a*b* (CIE 15:2004, ISO 11664-4) relative to the D50 white of ICC color management; L 0..100. */
export interface Lab {
  readonly L: number
  readonly a: number
  readonly b: number
}

/** L*, a* and b* of a picture, one value a pixel. */
export interface LabPlanes {
  readonly L: Float32Array
  readonly a: Float32Array
  readonly b: Float32Array
}

const [ROW_X, ROW_Y, ROW_Z] = toXyzD50(SRGB)
const TO_X = relative(ROW_X, D50[0])
const TO_Y = relative(ROW_Y, D50[1])
const TO_Z = relative(ROW_Z, D50[2])

/** Where f() turns from a line to a cube root. @source CIE 15:2004, ISO 11664-4, as the exact fraction (6/29)^3. */
const EPSILON = 216 / 24389

/** L* for each unit of luminance below EPSILON. @source CIE 15:2004, ISO 11664-4, as the exact fraction (29/3)^3. */
const KAPPA = 24389 / 27

/**
 * Steps of a table from which f() is read with linear interpolation: three cube roots a pixel are slow on whole pictures.
 * @choice the error is largest just above EPSILON, below 1e-6, so below 1.2e-4 in L* and 6e-4 in a*.
 */
const STEPS = 8192
const F = Float64Array.from({ length: STEPS + 2 }, (_, step) => f(step / STEPS))

/** sRGB codes 0..255 to L*a*b* (D50, Bradford). @source CIE 15:2004, ISO 11664-4. */
export function rgbToLab(r: number, g: number, b: number): Lab {
  const linear: Triple = [srgbToLinear(r / 255), srgbToLinear(g / 255), srgbToLinear(b / 255)]
  const x = f(dot(TO_X, linear))
  const y = f(dot(TO_Y, linear))
  const z = f(dot(TO_Z, linear))
  return { L: 116 * y - 16, a: 500 * (x - y), b: 200 * (y - z) }
}

/**
 * L*a*b* (D50, Bradford) of the first `pixels` pixels of 8-bit sRGB `data` (R, G, B interleaved).
 * Within 0.001 of {@link rgbToLab}.
 * @source CIE 15:2004, ISO 11664-4.
 */
export function labPlanes(data: Uint8Array, pixels: number): LabPlanes {
  const planes = {
    L: new Float32Array(pixels),
    a: new Float32Array(pixels),
    b: new Float32Array(pixels),
  }
  for (let i = 0, at = 0; i < pixels; i++, at += 3) {
    const red = linearLight(data[at] as number)
    const green = linearLight(data[at + 1] as number)
    const blue = linearLight(data[at + 2] as number)
    const x = tabled(TO_X[0] * red + TO_X[1] * green + TO_X[2] * blue)
    const y = tabled(TO_Y[0] * red + TO_Y[1] * green + TO_Y[2] * blue)
    const z = tabled(TO_Z[0] * red + TO_Z[1] * green + TO_Z[2] * blue)
    planes.L[i] = 116 * y - 16
    planes.a[i] = 500 * (x - y)
    planes.b[i] = 200 * (y - z)
  }
  return planes
}

/** L* alone, as {@link labPlanes} gives it, for half the time. @source CIE 15:2004, ISO 11664-4. */
export function lightnessPlane(data: Uint8Array, pixels: number): Float32Array {
  const plane = new Float32Array(pixels)
  for (let i = 0, at = 0; i < pixels; i++, at += 3) {
    const red = linearLight(data[at] as number)
    const green = linearLight(data[at + 1] as number)
    const blue = linearLight(data[at + 2] as number)
    plane[i] = 116 * tabled(TO_Y[0] * red + TO_Y[1] * green + TO_Y[2] * blue) - 16
  }
  return plane
}

/** Scales a row so that RGB white gives exactly 1 of the white's value. */
function relative(row: Triple, white: number): Triple {
  return [row[0] / white, row[1] / white, row[2] / white]
}

/** Luminance relative to white, 0..1, of a lightness L*, 0..100. @source CIE 15:2004, ISO 11664-4, the inverse of L* = 116 f(Y) - 16. */
export function luminanceOf(lightness: number): number {
  const cube = ((lightness + 16) / 116) ** 3
  return cube > EPSILON ? cube : lightness / KAPPA
}

/** The compressed value of a tristimulus value relative to white. @source CIE 15:2004, ISO 11664-4. */
function f(t: number): number {
  return t > EPSILON ? Math.cbrt(t) : (KAPPA * t + 16) / 116
}

/** f() from the table; t 0..1, rounding errors beyond it included. */
function tabled(t: number): number {
  const place = t * STEPS
  const step = place | 0
  const low = F[step] as number
  return low + (place - step) * ((F[step + 1] as number) - low)
}
