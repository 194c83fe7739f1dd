import type { Transfer } from '../../color/transfer.ts'
import type { Size } from '../../framing/ask.ts'
import type { CropBox } from '../../framing/crop-box.ts'
import { resampledLight } from '../../kernels/resampling.ts'
import type { Master } from './decode.ts'
import { tapsFor } from './taps.ts'
import { wordsOf } from './words.ts'

/** A picture in linear light of its master's space, 0..1, red, green and blue of each pixel. */
export interface Light extends Size {
  readonly light: Float32Array
}

/** Cuts a crop out of a master and makes it as large as it is ordered, in linear light. */
export function resampled(master: Master, crop: CropBox, size: Size): Light {
  const { pixels, widthPx, bits, color, origin = { x: 0, y: 0 } } = master
  const [red, green, blue] = color.curves
  const part = {
    codes: bits === 16 ? wordsOf(pixels) : pixels,
    widthPx,
    ...{ leftPx: crop.leftPx + origin.x, topPx: crop.topPx + origin.y },
    light: [lightOf(red, bits), lightOf(green, bits), lightOf(blue, bits)] as const,
  }
  const [across, down] = [tapsFor(crop.widthPx, size.widthPx), tapsFor(crop.heightPx, size.heightPx)]
  return { light: resampledLight(part, across, down), widthPx: size.widthPx, heightPx: size.heightPx }
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
