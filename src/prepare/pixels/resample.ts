import type { Transfer } from '../../color/transfer.ts'
import type { Size } from '../../framing/ask.ts'
import type { CropBox } from '../../framing/crop-box.ts'
import { resampledCodes } from '../../kernels/resampling.ts'
import { codingFor } from './convert.ts'
import type { Master } from './decode.ts'
import { tapsFor } from './taps.ts'
import type { TargetSpace } from './target-space.ts'
import { wordsOf } from './words.ts'

/** A picture as it is to be encoded. */
export interface Finished extends Size {
  readonly codes: Uint8Array | Uint16Array
  readonly channels: 1 | 3
  /** Share of the pixels whose color lies out of the space's gamut and was brought to its edge, 0..1. */
  readonly outOfGamut: number
}

/** Cuts a crop out of a master and makes it as large as it is ordered, in linear light, in the codes of a space. */
export function resampled(
  master: Master,
  crop: CropBox,
  size: Size,
  to: TargetSpace,
  bits: 8 | 16,
): Finished {
  const { pixels, widthPx, bits: own, color, origin = { x: 0, y: 0 } } = master
  const [red, green, blue] = color.curves
  const part = {
    codes: own === 16 ? wordsOf(pixels) : pixels,
    widthPx,
    ...{ leftPx: crop.leftPx + origin.x, topPx: crop.topPx + origin.y },
    light: [lightOf(red, own), lightOf(green, own), lightOf(blue, own)] as const,
  }
  const axes = [tapsFor(crop.widthPx, size.widthPx), tapsFor(crop.heightPx, size.heightPx)] as const
  const { channels } = to
  const count = size.widthPx * size.heightPx
  const codes = bits === 8 ? new Uint8Array(channels * count) : new Uint16Array(channels * count)
  const outside = resampledCodes(part, axes, codingFor(color, to, bits), codes)
  // What lies beyond the gray axis has its luminance there all the same.
  return { codes, ...size, channels, outOfGamut: count === 0 || channels === 1 ? 0 : outside / count }
}

const lights = new WeakMap<Transfer, Map<number, Float32Array>>()

/** Linear light by code; made once for each curve, since all files of a master read it. */
function lightOf(curve: Transfer, bits: 8 | 16): Float32Array {
  const known = lights.get(curve) ?? new Map<number, Float32Array>()
  lights.set(curve, known)
  const top = 2 ** bits - 1
  const light = known.get(bits) ?? Float32Array.from({ length: top + 1 }, (_, code) => curve(code / top))
  known.set(bits, light)
  return light
}
