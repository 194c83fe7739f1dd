import { chroma, lab, type ToLab } from '../kernels/lab.ts'
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

/** From codes to L*a*b*, in single precision. @source IEC 61966-2-1:1999, and the colorants above */
const TO_LAB: ToLab = {
  linear: Float32Array.from({ length: 256 }, (_, code) => linearLight(code)),
  rows: Float32Array.from([...TO_X, ...TO_Y, ...TO_Z]),
}

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
  return lab(data, pixels, TO_LAB)
}

/** C*ab, 0 or more, of the same pixels. @source CIE 15:2004, ISO 11664-4. */
export function chromaPlane(data: Uint8Array, pixels: number): Float32Array {
  return chroma(data, pixels, TO_LAB)
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
