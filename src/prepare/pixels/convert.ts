import type { Transfer } from '../../color/transfer.ts'
import type { Coding } from '../../kernels/resampling.ts'
import { multiply, transpose } from '../../numbers/matrix3.ts'
import type { SourceColor } from './decode.ts'
import type { TargetSpace } from './target-space.ts'

/** Steps of the table from the root of linear light to codes; between them it is read linearly. @choice within 0.1 of a 16-bit code, no source. */
const STEPS = 16384

/** How far a linear channel may lie beyond 0..1 and still be in gamut. @choice half of the finest 8-bit step near white, no source. */
const WITHIN = 0.004

/**
 * How light of a master becomes codes of a space of colorants and curves, relative colorimetric: white to white, black to black, what
 * lies out of gamut to its edge, channel by channel. Both intents of a spec come to that between such spaces, as ICC.1:2022, Annex D, has
 * it for profiles without tables. More than 8 bits become 8 with an ordered dither.
 */
export function codingFor({ toXyz }: SourceColor, to: TargetSpace, bits: 8 | 16): Coding {
  const { channels, fromXyz, fromLinear } = to
  return {
    columns: Float32Array.from(transpose(multiply(fromXyz, toXyz)).flatMap((column) => [...column, 0])),
    table: tableOf(fromLinear, bits),
    noise: bits === 8 ? NOISE : NONE,
    ...{ channels, within: WITHIN },
  }
}

const tables = new WeakMap<Transfer, Map<number, Float32Array>>()

/** Codes over the root of light; made once for each curve, since all files in a space are written by it. */
function tableOf(curve: Transfer, bits: 8 | 16): Float32Array {
  const known = tables.get(curve) ?? new Map<number, Float32Array>()
  tables.set(curve, known)
  const table = known.get(bits) ?? new Float32Array(STEPS + 1)
  if (!known.has(bits)) {
    const top = 2 ** bits - 1
    for (let step = 0; step < STEPS; step++) table[step] = top * curve((step / (STEPS - 1)) ** 2)
    table[STEPS] = top
    known.set(bits, table)
  }
  return table
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
