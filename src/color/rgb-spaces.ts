import { type Primaries, SRGB } from './colorants.ts'
import {
  adobeRgbFromLinear,
  adobeRgbToLinear,
  rommFromLinear,
  rommToLinear,
  srgbFromLinear,
  srgbToLinear,
  type Transfer,
} from './transfer.ts'

/** An RGB space that files are delivered in. */
export interface RgbSpace {
  readonly name: 'sRGB' | 'Adobe RGB (1998)' | 'Display P3' | 'ProPhoto RGB'
  readonly primaries: Primaries
  readonly toLinear: Transfer
  readonly fromLinear: Transfer
}

/**
 * Known spaces.
 * @source sRGB: IEC 61966-2-1:1999. Adobe RGB (1998) Color Image Encoding, version 2005-05. Display P3: the primaries of SMPTE RP 431-2
 * with the white and the curve of sRGB. ProPhoto RGB: ROMM RGB, ISO 22028-2.
 */
export const RGB_SPACES: readonly RgbSpace[] = [
  { name: 'sRGB', primaries: SRGB, toLinear: srgbToLinear, fromLinear: srgbFromLinear },
  {
    name: 'Adobe RGB (1998)',
    primaries: { red: [0.64, 0.33], green: [0.21, 0.71], blue: [0.15, 0.06], white: SRGB.white },
    toLinear: adobeRgbToLinear,
    fromLinear: adobeRgbFromLinear,
  },
  {
    name: 'Display P3',
    primaries: { red: [0.68, 0.32], green: [0.265, 0.69], blue: [0.15, 0.06], white: SRGB.white },
    toLinear: srgbToLinear,
    fromLinear: srgbFromLinear,
  },
  {
    name: 'ProPhoto RGB',
    primaries: {
      red: [0.7347, 0.2653],
      green: [0.1596, 0.8404],
      blue: [0.0366, 0.0001],
      white: [0.3457, 0.3585],
    },
    toLinear: rommToLinear,
    fromLinear: rommFromLinear,
  },
]
