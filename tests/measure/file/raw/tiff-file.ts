/** A directory of a TIFF file that tests make: tags with numbers, texts, or directories and pictures that lie elsewhere in it. */
export type Values = Readonly<Record<number, number | string | Buffer | readonly Values[]>>

/** Types and sizes of values (TIFF 6.0, section 2): ASCII, SHORT, LONG. */
const [ASCII, SHORT, LONG] = [2, 3, 4]
/** Where a picture's length stands, by the tag of where it begins (TIFF 6.0, sections 8 and 22). */
const LENGTHS: Readonly<Record<number, number>> = { 273: 279, 513: 514 }

/**
 * A TIFF file (TIFF 6.0, section 2), big or little endian. A buffer as a tag's value is put elsewhere, with its offset as
 * the value and its length under the tag that belongs to it; directories are put elsewhere, with their offsets as values.
 */
export function tiffFile(first: Values, order: 'II' | 'MM' = 'II'): Buffer {
  const u16 = (value: number) => {
    const bytes = Buffer.alloc(2)
    if (order === 'II') bytes.writeUInt16LE(value)
    else bytes.writeUInt16BE(value)
    return bytes
  }
  const u32 = (value: number) => {
    const bytes = Buffer.alloc(4)
    if (order === 'II') bytes.writeUInt32LE(value)
    else bytes.writeUInt32BE(value)
    return bytes
  }
  const parts: Buffer[] = [Buffer.from(order, 'latin1'), u16(42)]
  let length = 8
  const put = (bytes: Buffer): number => {
    const at = length
    const padded = bytes.length % 2 === 0 ? bytes : Buffer.concat([bytes, Buffer.alloc(1)])
    parts.push(padded)
    length += padded.length
    return at
  }
  const place = parts.length
  parts.push(Buffer.alloc(4))
  const directory = (values: Values): number => {
    const all: [number, number, number, Buffer][] = []
    for (const [key, value] of Object.entries(values)) {
      const tag = Number(key)
      if (typeof value === 'number')
        all.push([tag, value < 65536 ? SHORT : LONG, 1, value < 65536 ? u16(value) : u32(value)])
      else if (typeof value === 'string') {
        const text = Buffer.from(`${value}\0`, 'latin1')
        all.push([tag, ASCII, text.length, text.length <= 4 ? text : u32(put(text))])
      } else if (Buffer.isBuffer(value)) {
        all.push([tag, LONG, 1, u32(put(value))], [LENGTHS[tag] ?? 0, LONG, 1, u32(value.length)])
      } else {
        const places = value.map(directory).map(u32)
        const bytes = Buffer.concat(places)
        all.push([tag, LONG, places.length, bytes.length === 4 ? bytes : u32(put(bytes))])
      }
    }
    const entries = all
      .toSorted(([a], [b]) => a - b)
      .map(([tag, type, count, value]) =>
        Buffer.concat([u16(tag), u16(type), u32(count), value, Buffer.alloc(4 - value.length)]),
      )
    return put(Buffer.concat([u16(entries.length), ...entries, u32(0)]))
  }
  parts[place] = u32(directory(first))
  return Buffer.concat(parts)
}
