import sharp from 'sharp'
import type { Finished } from '../pixels/resample.ts'

/** Weights of red, green and blue in a JPEG's luma. @source ITU-T T.871, 7. */
const LUMA = [0.299, 0.587, 0.114] as const

/** Side of the areas in which pictures are compared, px: no block of a JPEG, nor of its chroma, lies in two of them. @source ITU-T T.81, A.1.1 and A.2.3. */
export const SIDE = 16

/** What a file of a picture shows, pixel by pixel as the picture has them. */
export async function shown(bytes: Buffer, picture: Finished): Promise<Finished> {
  const decoded = sharp(bytes, { ignoreIcc: true }).removeAlpha()
  const codes = await decoded
    .toColourspace(picture.channels === 1 ? 'b-w' : 'srgb')
    .raw()
    .toBuffer()
  return { ...picture, codes }
}

/** Areas of a picture, row by row. */
export function areasOf({ widthPx, heightPx }: Finished): {
  readonly columns: number
  readonly rows: number
} {
  return { columns: Math.ceil(widthPx / SIDE), rows: Math.ceil(heightPx / SIDE) }
}

/** By how much the luma of a picture is off in each area: the sum of squares over its pixels. */
export function lumaErrors(found: Finished, wanted: Finished): Float64Array {
  const { channels, widthPx, heightPx } = wanted
  const { columns, rows } = areasOf(wanted)
  const weights = channels === 1 ? [1] : LUMA
  const errors = new Float64Array(columns * rows)
  for (let y = 0, at = 0; y < heightPx; y++) {
    const row = columns * Math.floor(y / SIDE)
    for (let x = 0; x < widthPx; x++) {
      let difference = 0
      for (let channel = 0; channel < channels; channel++, at++)
        difference +=
          (weights[channel] as number) * ((found.codes[at] as number) - (wanted.codes[at] as number))
      const area = row + Math.floor(x / SIDE)
      errors[area] = (errors[area] as number) + difference * difference
    }
  }
  return errors
}
