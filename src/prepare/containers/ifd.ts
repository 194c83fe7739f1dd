/** An entry of a TIFF directory with its values as bytes, little-endian. @source TIFF Revision 6.0, section 2. */
export interface Entry {
  readonly tag: number
  readonly type: number
  readonly count: number
  readonly data: Buffer
}

/** Bytes of an entry. @source TIFF Revision 6.0, section 2. */
const ENTRY = 12

/** Head of a little-endian TIFF whose first directory follows at once. @source TIFF Revision 6.0, section 2. */
export const LITTLE_ENDIAN = Buffer.from([0x49, 0x49, 42, 0, 8, 0, 0, 0])

const number = (bytes: 2 | 4, values: readonly number[]) => {
  const data = Buffer.alloc(bytes * values.length)
  for (const [index, value] of values.entries()) data.writeUIntLE(value, bytes * index, bytes)
  return data
}

/** Texts are UTF-8 that ends with a zero byte. */
export function texts(tag: number, text: string): Entry {
  const data = Buffer.from(`${text.replaceAll('\0', '')}\0`)
  return { tag, type: 2, count: data.length, data }
}
export const shorts = (tag: number, ...values: number[]): Entry => ({
  ...{ tag, type: 3, count: values.length },
  data: number(2, values),
})
export const longs = (tag: number, ...values: number[]): Entry => ({
  ...{ tag, type: 4, count: values.length },
  data: number(4, values),
})
export const unspecified = (tag: number, data: Buffer): Entry => ({ tag, type: 7, count: data.length, data })
export const bytes = (tag: number, data: Buffer): Entry => ({ tag, type: 1, count: data.length, data })
/** To a thousandth. */
export const rationals = (tag: number, value: number): Entry => ({
  ...{ tag, type: 5, count: 1 },
  data: number(4, Number.isInteger(value) ? [value, 1] : [Math.round(1000 * value), 1000]),
})

/**
 * A directory and the values that its entries point to.
 * @param place where it will stand in the file, bytes
 * @param kept entries of an existing directory, of {@link ENTRY} bytes each, whose values stay where they are
 */
export function ifd(entries: readonly Entry[], place: number, kept: readonly Buffer[] = []): Buffer {
  const all = [...entries, ...kept].map((entry) =>
    Buffer.isBuffer(entry) ? { tag: entry.readUInt16LE(0), bytes: entry } : { tag: entry.tag, entry },
  )
  all.sort((a, b) => a.tag - b.tag)
  const table = Buffer.alloc(2 + ENTRY * all.length + 4)
  table.writeUInt16LE(all.length, 0)
  const values: Buffer[] = []
  let end = place + table.length
  for (const [index, one] of all.entries()) {
    const at = 2 + ENTRY * index
    if (one.bytes) {
      one.bytes.copy(table, at)
      continue
    }
    const { tag, type, count, data } = one.entry
    table.writeUInt16LE(tag, at)
    table.writeUInt16LE(type, at + 2)
    table.writeUInt32LE(count, at + 4)
    if (data.length <= 4) {
      data.copy(table, at + 8)
      continue
    }
    table.writeUInt32LE(end, at + 8)
    const padded = data.length % 2 === 0 ? data : Buffer.concat([data, Buffer.alloc(1)])
    values.push(padded)
    end += padded.length
  }
  return Buffer.concat([table, ...values])
}

/** The entries of the first directory of a little-endian TIFF, of {@link ENTRY} bytes each. */
export function firstEntries(tiff: Buffer): Buffer[] {
  const at = tiff.readUInt32LE(4)
  const count = tiff.readUInt16LE(at)
  return Array.from({ length: count }, (_, index) =>
    tiff.subarray(at + 2 + ENTRY * index, at + 2 + ENTRY * (index + 1)),
  )
}
