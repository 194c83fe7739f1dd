import type { Decodable } from '../container/sniff.ts'
import { decoderBlocks } from './decoder-blocks.ts'
import { jpegBlocks } from './jpeg-blocks.ts'
import { pngBlocks } from './png-blocks.ts'
import type { RawBlocks } from './raw-blocks.ts'
import { tiffBlocks } from './tiff-blocks.ts'

/** Finds the metadata blocks of a picture. Never rejects. */
export async function findBlocks(format: Decodable, content: Buffer): Promise<RawBlocks> {
  if (format === 'jpeg') return jpegBlocks(content)
  if (format === 'png') return pngBlocks(content)
  return format === 'tiff' ? tiffBlocks(content) : decoderBlocks(format, content)
}
