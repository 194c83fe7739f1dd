import { type Primaries, toXyzD50 } from '../../color/colorants.ts'
import { RGB_SPACES } from '../../color/rgb-spaces.ts'
import { srgbFromLinear, type Transfer } from '../../color/transfer.ts'
import { invert, type Matrix } from '../../numbers/matrix3.ts'
import type { ColorSpace } from '../../rules/contract/export-settings.ts'

/** A color space to deliver in: how linear XYZ (D50) becomes its codes. */
export interface TargetSpace {
  readonly name: ColorSpace
  readonly channels: 1 | 3
  /** XYZ relative to D50 to linear channels 0..1; for gray each row gives the luminance. */
  readonly fromXyz: Matrix
  readonly fromLinear: Transfer
  /** Null for gray. */
  readonly primaries: Primaries | null
}

/** Luminance alone. @source CIE 15: Y of XYZ. */
const LUMINANCE: Matrix = [
  [0, 1, 0],
  [0, 1, 0],
  [0, 1, 0],
]

/** Gray has the curve of sRGB, so that a program that ignores its profile shows it alike. @choice no source. */
export function targetSpace(name: ColorSpace): TargetSpace {
  if (name === 'gray')
    return { name, channels: 1, fromXyz: LUMINANCE, fromLinear: srgbFromLinear, primaries: null }
  const space = RGB_SPACES.find((one) => one.name === name)
  if (!space) throw new Error(`Nobody knows the color space ${name}.`)
  const { primaries, fromLinear } = space
  return { name, channels: 3, fromXyz: invert(toXyzD50(primaries)), fromLinear, primaries }
}
