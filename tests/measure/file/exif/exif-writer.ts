/** A tag with the bytes of its value: see {@link ascii}, {@link short}, {@link long}, {@link rational}, {@link bytes}. */
export interface Tag {
  readonly tag: number
  readonly type: number
  readonly count: number
  readonly value: Buffer
}

export const ascii = (tag: number, text: string | Buffer): Tag => {
  const value = typeof text === 'string' ? Buffer.from(`${text}\0`, 'utf8') : text
  return { tag, type: 2, count: value.length, value }
}
export const short = (tag: number, ...numbers: readonly number[]): Tag => {
  const value = Buffer.alloc(2 * numbers.length)
  for (const [n, number] of numbers.entries()) value.writeUInt16LE(number, 2 * n)
  return { tag, type: 3, count: numbers.length, value }
}
export const long = (tag: number, ...numbers: readonly number[]): Tag => {
  const value = Buffer.alloc(4 * numbers.length)
  for (const [n, number] of numbers.entries()) value.writeUInt32LE(number, 4 * n)
  return { tag, type: 4, count: numbers.length, value }
}
/** Numerators and denominators in turn. */
export const rational = (tag: number, ...numbers: readonly number[]): Tag => {
  const { value } = long(tag, ...numbers)
  return { tag, type: 5, count: numbers.length / 2, value }
}
export const bytes = (tag: number, value: Buffer): Tag => ({ tag, type: 7, count: value.length, value })

export interface ExifRecipe {
  readonly main?: readonly Tag[]
  readonly exif?: readonly Tag[]
  readonly gps?: readonly Tag[]
  /** Tags of the second directory, beside those of `preview`. */
  readonly thumbnail?: readonly Tag[]
  /** A JPEG that the second directory points to. */
  readonly preview?: Buffer
}

/** A little-endian Exif block, from its TIFF header on. */
export function writeExif(recipe: ExifRecipe): Buffer {
  const { main = [], exif, gps, preview, thumbnail = preview ? [] : undefined } = recipe
  const place = { exif: 0, gps: 0, thumbnail: 0, preview: 0 }
  const layOut = () => {
    const pointers = [...(exif ? [long(0x8769, place.exif)] : []), ...(gps ? [long(0x8825, place.gps)] : [])]
    const jpeg = preview ? [short(0x103, 6), long(0x201, place.preview), long(0x202, preview.length)] : []
    const parts: Buffer[] = [Buffer.from('II\x2a\0\x08\0\0\0', 'latin1')]
    let at = 8
    const put = (part: Buffer) => {
      const start = at
      parts.push(part)
      at += part.length
      return start
    }
    put(directory([...main, ...pointers], at, place.thumbnail))
    if (exif) place.exif = put(directory(exif, at, 0))
    if (gps) place.gps = put(directory(gps, at, 0))
    if (thumbnail) place.thumbnail = put(directory([...thumbnail, ...jpeg], at, 0))
    if (preview) place.preview = put(preview)
    return Buffer.concat(parts)
  }
  // Sizes do not depend on the places: the second time they are right.
  layOut()
  return layOut()
}

/** A directory that stands at `start`, its longer values behind it. */
export function directory(tags: readonly Tag[], start: number, next: number): Buffer {
  const sorted = [...tags].sort((one, other) => one.tag - other.tag)
  const head = Buffer.alloc(2 + 12 * sorted.length + 4)
  head.writeUInt16LE(sorted.length, 0)
  const values: Buffer[] = []
  let valueAt = start + head.length
  for (const [n, { tag, type, count, value }] of sorted.entries()) {
    const at = 2 + 12 * n
    head.writeUInt16LE(tag, at)
    head.writeUInt16LE(type, at + 2)
    head.writeUInt32LE(count, at + 4)
    if (value.length <= 4) value.copy(head, at + 8)
    else {
      head.writeUInt32LE(valueAt, at + 8)
      const padded = Buffer.concat([value, Buffer.alloc(value.length % 2)])
      values.push(padded)
      valueAt += padded.length
    }
  }
  head.writeUInt32LE(next, head.length - 4)
  return Buffer.concat([head, ...values])
}

/** Payload of an APP1 segment. */
export const exifSegment = (tiff: Buffer) => Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff])
