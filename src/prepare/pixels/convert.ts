import type { Size } from '../../framing/ask.ts'
import { encodedLight } from '../../kernels/resampling.ts'
import { multiply, transpose } from '../../numbers/matrix3.ts'
import type { SourceColor } from './decode.ts'
import type { Light } from './resample.ts'
import type { TargetSpace } from './target-space.ts'

/** A picture as it is to be encoded. */
export interface Finished extends Size {
  readonly codes: Uint8Array | Uint16Array
  readonly channels: 1 | 3
  /** Share of the pixels whose color lies out of the space's gamut and was brought to its edge, 0..1. */
  readonly outOfGamut: number
}

/** Steps of the table from the root of linear light to codes; between them it is read linearly. @choice within 0.1 of a 16-bit code, no source. */
const STEPS = 16384

/** How far a linear channel may lie beyond 0..1 and still be in gamut. @choice half of the finest 8-bit step near white, no source. */
const WITHIN = 0.004

/**
 * Converts a picture between spaces of colorants and curves, relative colorimetric: white to white, black to black, what
 * lies out of gamut to its edge, channel by channel. Both intents of a spec come to that between such spaces, as ICC.1:2022, Annex D, has
 * it for profiles without tables. More than 8 bits become 8 with an ordered dither.
 */
export function converted(
  { light, widthPx, heightPx }: Light,
  { toXyz }: SourceColor,
  to: TargetSpace,
  bits: 8 | 16,
): Finished {
  const { channels, fromXyz, fromLinear } = to
  const [top, noise] = bits === 8 ? [255, NOISE] : [65535, NONE]
  const coding = {
    columns: Float32Array.from(transpose(multiply(fromXyz, toXyz)).flatMap((column) => [...column, 0])),
    table: Float32Array.from({ length: STEPS }, (_, step) => top * fromLinear((step / (STEPS - 1)) ** 2)),
    ...{ noise, channels, within: WITHIN },
  }
  const count = widthPx * heightPx
  const codes = bits === 8 ? new Uint8Array(count * channels) : new Uint16Array(count * channels)
  const outside = encodedLight(light, widthPx, coding, codes)
  // What lies beyond the gray axis has its luminance there all the same.
  return {
    codes,
    widthPx,
    heightPx,
    channels,
    outOfGamut: count === 0 || channels === 1 ? 0 : outside / count,
  }
}

const SHIFT = 3
const MASK = (1 << SHIFT) - 1

/** What is added before rounding down, 0..1: thresholds of an 8 x 8 matrix. @source Bayer, IEEE Int. Conf. Communications (1973), 26-11. */
const NOISE = Float32Array.from(
  { length: 64 },
  (_, index) => (bayer(index & MASK, index >> SHIFT) + 0.5) / 64,
)

/** The same for 16 bits, which are rounded to the nearest. */
const NONE = new Float32Array(64).fill(0.5)

function bayer(x: number, y: number): number {
  let value = 0
  for (let bit = 0; bit < SHIFT; bit++) {
    const [a, b] = [(x >> bit) & 1, (y >> bit) & 1]
    value |= (((a ^ b) << 1) | b) << (2 * (SHIFT - 1 - bit))
  }
  return value
}
