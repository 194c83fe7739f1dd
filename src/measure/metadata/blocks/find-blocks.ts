import type { Decodable } from '../../schema/formats.ts'
import { jpegBlocks } from './jpeg-blocks.ts'
import { pngBlocks } from './png-blocks.ts'
import type { RawBlocks } from './raw-blocks.ts'
import { strayBlocks } from './stray-blocks.ts'
import { tiffBlocks } from './tiff-blocks.ts'
import { webpBlocks } from './webp-blocks.ts'

/** Finds the metadata blocks of a picture. Never rejects. */
export async function findBlocks(format: Decodable, content: Buffer): Promise<RawBlocks> {
  // All of a JPEG is read, or told as a segment that can't be read.
  if (format === 'jpeg') return jpegBlocks(content)
  const raw = await blocksOf(format, content)
  return { ...raw, unreadable: [...raw.unreadable, ...strayBlocks(content, raw)] }
}

async function blocksOf(format: Exclude<Decodable, 'jpeg'>, content: Buffer): Promise<RawBlocks> {
  if (format === 'png') return pngBlocks(content)
  if (format === 'tiff') return tiffBlocks(content)
  if (format === 'webp') return webpBlocks(content)
  const { avifBlocks } = await import('./avif-blocks.ts')
  return avifBlocks(content)
}
