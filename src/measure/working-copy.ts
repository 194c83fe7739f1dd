import type { RgbPicture } from '../imaging/rgb-picture.ts'
import type { DecodedPicture } from './file/decoded-picture.ts'
import { decoder } from './file/decoder.ts'

/** Long edge of the copy on which the backdrop is measured, px. @choice a backdrop is smooth: more pixels only cost time */
export const BACKDROP_LONG_EDGE_PX = 512
/**
 * Long edge of the copy in which faces are looked for, px.
 * @choice an iris is read in a square of 64 px, which a face of a third of the frame fills at this size
 */
export const FACE_LONG_EDGE_PX = 1024

/** The opacity of a picture as a gray one in the size of a copy, each pixel the nearest one; null when all of it is opaque. */
export function alphaOf(
  { alpha, width, height }: DecodedPicture,
  copy: Pick<RgbPicture, 'width' | 'height'>,
): RgbPicture | null {
  if (!alpha) return null
  const data = new Uint8Array(3 * copy.width * copy.height)
  for (let y = 0, to = 0; y < copy.height; y++) {
    const row = Math.floor(((y + 0.5) * height) / copy.height) * width
    for (let x = 0; x < copy.width; x++, to += 3)
      data.fill(alpha[row + Math.floor(((x + 0.5) * width) / copy.width)] as number, to, to + 3)
  }
  return { data, width: copy.width, height: copy.height }
}

/** A copy at most `edge` px long; a smaller picture is taken as it is. */
export async function copyOf({ data, width, height }: RgbPicture, edge: number): Promise<RgbPicture> {
  if (Math.max(width, height) <= edge) return { data, width, height }
  const { data: copy, info } = await decoder(data, { raw: { width, height, channels: 3 } })
    .resize(edge, edge, { fit: 'inside', kernel: 'linear' })
    .raw()
    .toBuffer({ resolveWithObject: true })
  return { data: copy, width: info.width, height: info.height }
}
