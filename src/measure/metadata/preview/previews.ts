import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { readContainer } from '../../file/container/container.ts'
import { sniff } from '../../file/container/sniff.ts'
import { decodeMemory } from '../../file/decode-memory.ts'
import type { DecodedPicture } from '../../file/decoded-picture.ts'
import { decoder } from '../../file/decoder.ts'
import { displayed } from '../../file/orient.ts'
import { type Comparison, NO_COMPARISON, type Preview } from '../../schema/preview-facts.ts'
import type { StoredPreview } from '../blocks/raw-blocks.ts'
import { compare, likeness, PREVIEW_EDGE } from './compare.ts'

/** Largest preview that is decoded, pixels. @choice some are as large as a screen, and cameras' as large as the picture; no source. */
const MAX_PIXELS = 25_000_000

/** Most memory that decoding one may take, bytes. @choice a plain JPEG of the most pixels takes 72 MiB; the picture's own pixels are still held meanwhile. */
const MAX_MEMORY = 128 * 1024 ** 2

/**
 * Measures a preview and compares it with the picture. Never rejects.
 * @param picture null when the file was not decoded; nothing is compared then
 * @param orientation the tag of the picture, which its previews share (CIPA DC-008, 4.6.4 A, Orientation)
 */
export async function measurePreview(
  { where, picture: data, page = 0 }: StoredPreview,
  picture: DecodedPicture | null,
  orientation: number,
): Promise<Preview> {
  const known = { where, bytes: page === 0 && data ? data.length : null }
  // Of files, nothing but JPEG reaches the decoder, and none with scans beyond number; pages are of a TIFF that has reached it.
  const format = page === 0 ? 'jpeg' : 'tiff'
  if (!data || (page === 0 && sniff(data) !== format)) return { ...known, ...UNREAD }
  const container = readContainer(format, data)
  if (container.excess !== null) return { ...known, ...UNREAD }
  try {
    const read = () => decoder(data, { page, limitInputPixels: MAX_PIXELS, failOn: 'error' })
    const { width, height, channels, depth, hasAlpha } = await read().metadata()
    const bitsPerChannel = BITS[depth] ?? MOST_BITS
    const facts = {
      widthPx: width,
      heightPx: height,
      channels,
      bitsPerChannel,
      hasAlpha,
      orientationTag: null,
    }
    if (decodeMemory(format, facts, container) > MAX_MEMORY) return { ...known, ...UNREAD }
    const size = { widthPx: width, heightPx: height }
    if (!picture) return { ...known, ...size, ...NO_COMPARISON, doubt: 'picture-not-decoded' }
    return { ...known, ...size, ...(await compareTurned(read, picture, orientation)) }
  } catch {
    return { ...known, ...UNREAD }
  }
}

/** Bits of a channel by the decoder's word for its numbers. @source libvips, VipsBandFormat. */
const BITS: Readonly<Record<string, number>> = {
  uchar: 8,
  char: 8,
  ushort: 16,
  short: 16,
  uint: 32,
  int: 32,
  float: 32,
}
/** Bits of a channel of the widest numbers, doubles in pairs. @choice definition. */
const MOST_BITS = 128

const UNREAD = { widthPx: null, heightPx: null, ...NO_COMPARISON, doubt: 'not-read' } as const

/** As the tag has it, or, from programs that turn only one of the two, as stored: whichever is like the picture. */
async function compareTurned(
  read: () => ReturnType<typeof decoder>,
  picture: DecodedPicture,
  orientation: number,
): Promise<Comparison> {
  const edge = Math.min(PREVIEW_EDGE, Math.max(picture.width, picture.height))
  const small = await rgbOf(read().resize(edge, edge, { fit: 'inside', withoutEnlargement: true }))
  const shown = await compare(await displayed(small, orientation), picture)
  if (orientation === 1 || shown.shows === 'same') return shown
  const stored = await compare(small, picture)
  return stored.shows === 'same' || likeness(stored) > likeness(shown) ? stored : shown
}

async function rgbOf(image: ReturnType<typeof decoder>): Promise<RgbPicture> {
  const { data, info } = await image
    .toColourspace('srgb')
    .removeAlpha()
    .raw({ depth: 'uchar' })
    .toBuffer({ resolveWithObject: true })
  return { data, width: info.width, height: info.height }
}
