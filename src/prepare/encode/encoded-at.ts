import sharp, { type Sharp } from 'sharp'
import type { Decodable } from '../../measure/schema/formats.ts'
import type { Blocks } from '../containers/blocks.ts'
import { jpegWith } from '../containers/jpeg.ts'
import { pngWith } from '../containers/png.ts'
import { tiffWith } from '../containers/tiff.ts'
import { webpWith } from '../containers/webp.ts'
import type { Finished } from '../pixels/resample.ts'
import type { Subsampling } from '../planning/order.ts'
import type { Manner } from './manners.ts'

/** How a picture is encoded. */
export interface Encoding {
  readonly format: Decodable
  readonly subsampling: Subsampling
  readonly progressive: boolean
  readonly tiff: 'none' | 'lzw' | 'deflate'
}

/** Encodes a picture at a quality (1..100; without meaning for PNG and TIFF) and puts the blocks into it. */
export async function encodedAt(
  picture: Finished,
  encoding: Encoding,
  blocks: Blocks,
  quality: number,
  manner: Manner,
): Promise<Buffer> {
  const source = sourceOf(picture)
  const { format, subsampling, progressive, tiff } = encoding
  switch (format) {
    case 'jpeg': {
      const jpeg = source.jpeg({
        ...{ quality, progressive },
        chromaSubsampling: subsampling,
        ...manner.jpeg,
      })
      return jpegWith(await jpeg.toBuffer(), blocks)
    }
    case 'png':
      return pngWith(await source.png({ compressionLevel: 9 }).toBuffer(), blocks)
    case 'tiff':
      return tiffWith(await source.tiff({ compression: tiff, predictor: 'horizontal' }).toBuffer(), blocks)
    case 'webp':
      return webpWith(await source.webp({ quality, ...manner.webp }).toBuffer(), blocks, picture)
    case 'avif': {
      // Its boxes are the library's to write: it takes the blocks over from a PNG.
      const labeled = pngWith(await source.png({ compressionLevel: 0 }).toBuffer(), blocks)
      const avif = { quality, chromaSubsampling: subsampling, ...manner.avif }
      return sharp(labeled).keepMetadata().avif(avif).toBuffer()
    }
  }
}

function sourceOf({ codes, channels, widthPx, heightPx }: Finished): Sharp {
  const picture = sharp(codes, { raw: { width: widthPx, height: heightPx, channels } })
  const isDeep = codes.BYTES_PER_ELEMENT === 2
  if (channels === 1) return picture.toColourspace(isDeep ? 'grey16' : 'b-w')
  return isDeep ? picture.toColourspace('rgb16') : picture
}
