import type { DecodedPicture } from './decoded-picture.ts'
import { decoder, lasting } from './decoder.ts'

/**
 * Decodes a picture in one of the decodable formats to its last row.
 * @param maxPixels a larger picture is refused
 * @param isSrgb whether its embedded profile is that of sRGB: converting by it changes no code and takes longer than all
 *   the rest of the decoding
 * @throws Error in the decoder's words when it refuses or as much as warns
 */
export async function decodePicture(
  content: Buffer,
  maxPixels: number,
  isSrgb = false,
): Promise<DecodedPicture> {
  const { data, info } = await inSrgb(watched({ content, maxPixels, isSrgb }).autoOrient())
  const { width, height, channels } = info
  if (channels < RGB) throw new Error(`decoded to ${channels} channels instead of red, green and blue`)
  if (channels === RGB) return { data, width, height, transparentShare: 0 }
  return { ...flatten(data, width * height, channels), width, height }
}

interface Watched {
  readonly content: Buffer
  /** A larger picture is refused. */
  readonly maxPixels: number
  /** Whether its embedded profile is that of sRGB. */
  readonly isSrgb: boolean
}

/** A picture that is refused when the decoder as much as warns. */
export function watched({ content, maxPixels, isSrgb }: Watched) {
  return decoder(content, { failOn: 'warning', limitInputPixels: maxPixels, ignoreIcc: isSrgb })
}

/** Its pixels in 8 bits a channel. The conversion goes through the embedded profile, where there is one. */
export async function inSrgb(picture: ReturnType<typeof decoder>) {
  const { data, info } = await picture
    .toColourspace('srgb')
    .raw({ depth: 'uchar' })
    .toBuffer({ resolveWithObject: true })
  return { data: lasting(data), info }
}

/** Channels of a color. @choice definition: red, green and blue. */
const RGB = 3

/** Lays the picture on white, as a browser does on a white page; channels beyond alpha are left out. */
function flatten(
  data: Buffer,
  pixels: number,
  channels: number,
): Pick<DecodedPicture, 'data' | 'transparentShare' | 'alpha'> {
  const flat = Buffer.allocUnsafe(pixels * 3)
  const alphas = new Uint8Array(pixels)
  let transparent = 0
  for (let i = 0, from = 0, to = 0; i < pixels; i++, from += channels, to += 3) {
    const alpha = data[from + 3] as number
    alphas[i] = alpha
    if (alpha < 255) transparent++
    // Half of the divisor rounds, since storing in a byte cuts off.
    const white = 255 * (255 - alpha) + 255 / 2
    flat[to] = ((data[from] as number) * alpha + white) / 255
    flat[to + 1] = ((data[from + 1] as number) * alpha + white) / 255
    flat[to + 2] = ((data[from + 2] as number) * alpha + white) / 255
  }
  return { data: flat, transparentShare: transparent / pixels, alpha: transparent > 0 ? alphas : null }
}
