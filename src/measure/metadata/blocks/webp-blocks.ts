import { MAX_RIFF_CHUNKS, readRiff } from '../../file/bytes/riff.ts'
import { withoutExifCode } from '../../file/exif/code.ts'
import type { Unreadable } from '../../schema/metadata-facts.ts'
import { NO_BLOCKS, type RawBlocks, trailer } from './raw-blocks.ts'

/** Chunks that the container's specification names. @source RFC 9649, 2.7. */
const CHUNKS = ['VP8 ', 'VP8L', 'VP8X', 'ALPH', 'ANIM', 'ANMF', 'ICCP', 'EXIF', 'XMP ']

/** All of a kind, whatever the header's flags say: readers differ in which they take. */
export function webpBlocks(webp: Buffer): RawBlocks {
  const { chunks, count, end } = readRiff(webp)
  const of = (type: string) => chunks.filter((chunk) => chunk.type === type).map(({ data }) => data)
  const bytes = chunks
    .filter(({ type }) => !CHUNKS.includes(type))
    .reduce((sum, { data }) => sum + data.length, 0)
  const unreadable: Unreadable[] = [
    ...(end > webp.length ? [{ where: 'the header', why: 'damaged' as const }] : []),
    ...(count > MAX_RIFF_CHUNKS ? [{ where: 'WebP chunks', why: 'too-many' as const }] : []),
  ]
  return {
    ...NO_BLOCKS,
    exif: of('EXIF').map((tiff) => ({ where: 'EXIF', tiff: withoutExifCode(tiff) })),
    xmp: of('XMP ').map((packet) => ({ where: 'XMP', packet })),
    opaque: [
      ...(bytes > 0 ? [{ where: 'WebP chunks of other kinds', bytes }] : []),
      ...trailer(webp.subarray(end)),
    ],
    unreadable,
  }
}
