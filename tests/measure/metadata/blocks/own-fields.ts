import { type Exif, type ExifDirectory, exifTexts } from '../../../../src/measure/file/exif/exif.ts'
import type { Blocks } from '../../../../src/measure/metadata/blocks/blocks.ts'
import type { XmpValue } from '../../../../src/measure/metadata/formats/xmp.ts'

/**
 * All that our readers find in the blocks of a file, by its place ("EXIF main 271", "IPTC 2:80", "XMP dc:title"): the
 * readings that the stored bytes allow, of which there are several where our reader takes none of them.
 */
export function ownFields({ exif, iim, xmp, texts }: Blocks): Map<string, readonly string[]> {
  const fields = new Map<string, readonly string[]>()
  const [block] = exif
  for (const directory of ['main', 'exif', 'gps', 'thumbnail'] as const)
    for (const tag of block?.[directory]?.tags ?? [])
      fields.set(`EXIF ${directory} ${tag}`, readings(block as Exif, directory, tag))
  // 2:00, the version of the record, is a binary number.
  for (let dataset = 1; dataset < 256; dataset++) {
    const values = iim?.values(dataset) ?? []
    for (const [n, value] of values.entries())
      fields.set(`IPTC 2:${dataset}${values.length === 1 ? '' : `[${n}]`}`, [value])
  }
  for (const { properties } of xmp)
    for (const [name, value] of properties)
      for (const [place, text] of leaves(`XMP ${name}`, value)) fields.set(place, [text.trim()])
  for (const [keyword, text] of texts) fields.set(`PNG text ${keyword}`, [text])
  return fields
}

function readings(exif: Exif, directory: ExifDirectory, tag: number): string[] {
  const numbers = exif[directory]?.numbers(tag)
  if (numbers) return [numbers.join(' ')]
  const bytes = exif[directory]?.bytes(tag) ?? Buffer.alloc(0)
  return [exifTexts(exif[directory], tag).join('\0'), bytes.join(' '), signed(bytes, exif.tiff[0] === 0x49)]
}

/** As signed fractions, or a signed number, in the order of the block. */
function signed(bytes: Buffer, littleEndian: boolean): string {
  const at = (place: number) => (littleEndian ? bytes.readInt32LE(place) : bytes.readInt32BE(place))
  if (bytes.length === 4) return String(at(0))
  if (bytes.length === 0 || bytes.length % 8 !== 0) return ''
  return Array.from({ length: bytes.length / 8 }, (_, n) => at(8 * n) / at(8 * n + 4)).join(' ')
}

function leaves(path: string, { text, items, fields }: XmpValue): [string, string][] {
  if (items.length > 0) {
    return items.flatMap((item, n) => leaves(items.length === 1 ? path : `${path}[${n}]`, item))
  }
  if (fields.size === 0) return [[path, text]]
  return [...fields].flatMap(([name, value]) => leaves(`${path}/${name.replace(/^.*[:}]/, '')}`, value))
}
