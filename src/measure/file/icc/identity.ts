import { toXyzD50 } from '../../../color/colorants.ts'
import { RGB_SPACES, type RgbSpace } from '../../../color/rgb-spaces.ts'
import type { Triple } from '../../../numbers/matrix3.ts'
import type { Profile } from '../../schema/measurements.ts'
import type { MatrixModel } from './profile.ts'

/**
 * How far a colorant may be off that of a space, X, Y or Z.
 * @tuned on the 63 profiles of Debian packages, the picture library's own and those in photographs of npm packages: each true one
 * is within 0.0003, but the library's Display P3, whose columns were rounded to add up to its white, 0.0011; the nearest that is
 * none, a P3 with the white of ACES, is 0.011 away.
 */
const COLORANT_MARGIN = 0.002

/**
 * How far a curve may be off that of a space, share of full light.
 * @tuned on the same profiles: each true sRGB is within 0.0005, and the nearest that is none, the curve of ITU-R BT.709 on the same
 * colorants, is 0.047 away.
 */
const CURVE_MARGIN = 0.005

/** Which known space a matrix profile is, by its colorants and curves, whatever it calls itself. */
export function identify(model: MatrixModel): Profile {
  return RGB_SPACES.find((space) => sameColorants(model, space) && sameCurves(model, space))?.name ?? 'other'
}

function sameColorants({ colorants }: MatrixModel, { primaries }: RgbSpace): boolean {
  // Columns of the matrix are the colorants.
  const rows = toXyzD50(primaries)
  return colorants.every((colorant: Triple, column) =>
    colorant.every((value, row) => near(value, rows[row]?.[column], COLORANT_MARGIN)),
  )
}

function sameCurves({ curves }: MatrixModel, { toLinear }: RgbSpace): boolean {
  for (let code = 0; code < 256; code++) {
    const encoded = code / 255
    if (!curves.every((own) => near(own(encoded), toLinear(encoded), CURVE_MARGIN))) return false
  }
  return true
}

/** False also for NaN, which a malformed curve may give. */
function near(value: number, reference: number | undefined, margin: number): boolean {
  return reference !== undefined && Math.abs(value - reference) <= margin
}
