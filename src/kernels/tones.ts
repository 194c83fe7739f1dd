import type { Picture, Rectangle } from './memory.ts'
import { withKernels } from './with-kernels.ts'

const FLOAT = Float32Array.BYTES_PER_ELEMENT

/** What a code counts in red, in green and in blue: three tables of 256 values, one behind the other. */
export type Tables = Float64Array

/** Of each pixel in a part of a picture the sum of what its codes count, row by row; added up in double precision, told as floats. */
export function tonesOf(picture: Picture, part: Rectangle, tables: Tables): Float32Array {
  return withKernels((kernels, memory) => {
    const count = part.width * part.height
    const out = memory.room(FLOAT * count)
    kernels.tones(memory.part(picture, part), count, memory.put(tables), out)
    return memory.floats(out, count)
  })
}

/**
 * Of each pixel green or blue over red, divided in double precision.
 * @param channel 1 for green, 2 for blue
 * @param light of each code
 * @param least red that is assumed
 */
export function overRed(
  { data, width, height }: Picture,
  channel: 1 | 2,
  light: Float64Array,
  least: number,
): Float32Array {
  return withKernels((kernels, memory) => {
    const count = width * height
    const out = memory.room(FLOAT * count)
    kernels.overRed(memory.put(data), count, channel, memory.put(light), least, out)
    return memory.floats(out, count)
  })
}

/** By what pixels stand out from a color, in linear light. */
export interface Pale {
  /** Green over red and blue over red of the color. */
  readonly green: number
  readonly blue: number
  /** What the difference of a channel from that is multiplied by to be a share of white. */
  readonly perGreen: number
  readonly perBlue: number
  /** The share of white, in green or in blue, and the luminance above which a pixel is pale. */
  readonly leastShare: number
  readonly leastPale: number
  /** The luminance above which it stands out whatever its color. */
  readonly leastBright: number
}

/**
 * What of a mask over a part of a picture is paler than a color, or far brighter.
 * @param luminance of the part
 * @param light linear light of each code
 */
export function palePixels(
  picture: Picture,
  part: Rectangle,
  mask: Uint8Array,
  luminance: Float32Array,
  light: Float32Array,
  { green, blue, perGreen, perBlue, leastShare, leastPale, leastBright }: Pale,
): Uint8Array {
  return withKernels((kernels, memory) => {
    const out = memory.put(mask)
    kernels.markPale(
      memory.part(picture, part),
      memory.put(luminance),
      mask.length,
      memory.put(light),
      ...[green, perGreen, blue, perBlue, leastShare, leastPale, leastBright],
      out,
    )
    return memory.bytes(out, mask.length)
  })
}
