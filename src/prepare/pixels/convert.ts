import type { Transfer } from '../../color/transfer.ts'
import type { Size } from '../../framing/ask.ts'
import { multiply } from '../../numbers/matrix3.ts'
import type { SourceColor } from './decode.ts'
import type { Resampled } from './resample.ts'
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
 * it for profiles without tables. 16 bits become 8 with an ordered dither.
 */
export function converted(source: Resampled, from: SourceColor, to: TargetSpace, bits: 8 | 16): Finished {
  const { codes, widthPx, heightPx } = source
  const { channels } = to
  const count = widthPx * heightPx
  const [redLight, greenLight, blueLight] = from.curves.map(lightOf)
  const [p, q, r] = multiply(to.fromXyz, from.toXyz)
  const top = bits === 8 ? 255 : 65535
  const encode = codesOf(to, top)
  const out = bits === 8 ? new Uint8Array(count * channels) : new Uint16Array(count * channels)
  const noise = bits === 8 ? NOISE : NONE
  let outside = 0
  for (let at = 0, i = 0, y = 0; y < heightPx; y++) {
    const row = (y & MASK) << SHIFT
    for (let x = 0; x < widthPx; x++, i += 3) {
      const red = (redLight as Float32Array)[codes[i] as number] as number
      const green = (greenLight as Float32Array)[codes[i + 1] as number] as number
      const blue = (blueLight as Float32Array)[codes[i + 2] as number] as number
      const round = noise[row | (x & MASK)] as number
      const first = p[0] * red + p[1] * green + p[2] * blue
      out[at++] = encoded(first, encode, round)
      if (channels === 1) continue
      const second = q[0] * red + q[1] * green + q[2] * blue
      const third = r[0] * red + r[1] * green + r[2] * blue
      out[at++] = encoded(second, encode, round)
      out[at++] = encoded(third, encode, round)
      const [low, high] = [Math.min(first, second, third), Math.max(first, second, third)]
      if (low < -WITHIN || high > 1 + WITHIN) outside++
    }
  }
  return { codes: out, widthPx, heightPx, channels, outOfGamut: count === 0 ? 0 : outside / count }
}

function encoded(linear: number, table: Float32Array, round: number): number {
  // Curves are near to a root: by its steps they are almost straight, also where they rise steeply from black.
  const place = Math.sqrt(Math.min(Math.max(linear, 0), 1)) * (STEPS - 1)
  const low = Math.min(Math.floor(place), STEPS - 2)
  const from = table[low] as number
  return Math.floor(from + (place - low) * ((table[low + 1] as number) - from) + round)
}

const lights = new WeakMap<Transfer, Float32Array>()

/** Linear light by 16-bit code; made once for each curve, since all files of a master read it. */
function lightOf(curve: Transfer): Float32Array {
  const light = lights.get(curve) ?? Float32Array.from({ length: 65536 }, (_, code) => curve(code / 65535))
  lights.set(curve, light)
  return light
}

function codesOf({ fromLinear }: TargetSpace, top: number): Float32Array {
  return Float32Array.from({ length: STEPS }, (_, step) => top * fromLinear((step / (STEPS - 1)) ** 2))
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
