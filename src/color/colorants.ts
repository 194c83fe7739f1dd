import { apply, diagonal, invert, type Matrix, multiply, type Triple, transpose } from '../numbers/matrix3.ts'

/** CIE 1931 chromaticity x, y. */
type Chromaticity = readonly [x: number, y: number]

/** An RGB space by the chromaticities of its primaries and white. */
export interface Primaries {
  readonly red: Chromaticity
  readonly green: Chromaticity
  readonly blue: Chromaticity
  readonly white: Chromaticity
}

/** XYZ of the D50 white that ICC profiles connect through. @source ICC.1:2022, PCS illuminant. */
export const D50: Triple = [0.9642, 1, 0.8249]

/** Primaries and white of sRGB. @source IEC 61966-2-1:1999 (those of ITU-R BT.709). */
export const SRGB: Primaries = {
  red: [0.64, 0.33],
  green: [0.3, 0.6],
  blue: [0.15, 0.06],
  white: [0.3127, 0.329],
}

/** Linearized Bradford cone responses. @source ICC.1:2022 Annex E. */
const BRADFORD: Matrix = [
  [0.8951, 0.2664, -0.1614],
  [-0.7502, 1.7135, 0.0367],
  [0.0389, -0.0685, 1.0296],
]

/**
 * Matrix from linear RGB (0..1) to XYZ relative to D50, as a matrix profile holds it: its columns are the
 * colorants rXYZ, gXYZ, bXYZ. Primaries scaled to sum up to the white (SMPTE RP 177), then adapted with
 * Bradford (ICC.1:2022 Annex E).
 */
export function toXyzD50({ red, green, blue, white }: Primaries): Matrix {
  const primaries = transpose([xyz(red), xyz(green), xyz(blue)])
  const whiteXyz = xyz(white)
  const scale = apply(invert(primaries), whiteXyz)
  const toXyz = multiply(primaries, diagonal(scale))

  const from = apply(BRADFORD, whiteXyz)
  const to = apply(BRADFORD, D50)
  const gains = diagonal([to[0] / from[0], to[1] / from[1], to[2] / from[2]])
  const adapt = multiply(invert(BRADFORD), multiply(gains, BRADFORD))
  return multiply(adapt, toXyz)
}

/** XYZ of a chromaticity at Y = 1. */
function xyz([x, y]: Chromaticity): Triple {
  return [x / y, 1, (1 - x - y) / y]
}
