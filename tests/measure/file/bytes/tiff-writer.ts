/** A directory entry: tag, type (3 SHORT, 4 LONG, 5 RATIONAL as numerator and denominator) and its numbers. */
export type Entry = readonly [tag: number, type: 3 | 4 | 5, numbers: readonly number[]]

export interface TiffRecipe {
  readonly order?: 'II' | 'MM'
  /** In the order of their tags. */
  readonly entries: readonly Entry[]
  /** Comes last in the file; entries of the strips must point at it. */
  readonly data?: Buffer
}

/** A classic TIFF whose directory comes first and its pixels last; gives also where the data starts. */
export function writeTiff({ order = 'II', entries, data = Buffer.alloc(0) }: TiffRecipe): {
  tiff: Buffer
  dataAt: number
} {
  const number = (value: number, bytes: 2 | 4) => {
    const buffer = Buffer.alloc(bytes)
    if (order === 'II') buffer.writeUIntLE(value, 0, bytes)
    else buffer.writeUIntBE(value, 0, bytes)
    return buffer
  }
  let valueAt = 8 + 2 + 12 * entries.length + 4
  const directory: Buffer[] = [number(entries.length, 2)]
  const values: Buffer[] = []
  for (const [tag, type, numbers] of entries) {
    const count = type === 5 ? numbers.length / 2 : numbers.length
    const value = Buffer.concat(numbers.map((n) => number(n, type === 3 ? 2 : 4)))
    const inline = value.length <= 4
    directory.push(number(tag, 2), number(type, 2), number(count, 4))
    directory.push(inline ? Buffer.concat([value, Buffer.alloc(4 - value.length)]) : number(valueAt, 4))
    if (!inline) {
      values.push(value)
      valueAt += value.length
    }
  }
  const head = [Buffer.from(order), number(42, 2), number(8, 4)]
  const tiff = Buffer.concat([...head, ...directory, number(0, 4), ...values, data])
  return { tiff, dataAt: valueAt }
}

/** An uncompressed 8-bit RGB TIFF, its directory first; `rows` of each strip. */
export function rgbTiff(
  width: number,
  height: number,
  rows: number,
  pixels: Buffer,
  more: readonly Entry[] = [],
) {
  const strips = Math.ceil(height / rows)
  const stripBytes = rows * width * 3
  const recipe = (dataAt: number): TiffRecipe => ({
    entries: (
      [
        [0x100, 4, [width]],
        [0x101, 4, [height]],
        [0x102, 3, [8, 8, 8]],
        [0x103, 3, [1]],
        [0x106, 3, [2]],
        [0x111, 4, Array.from({ length: strips }, (_, n) => dataAt + n * stripBytes)],
        [0x115, 3, [3]],
        [0x116, 4, [rows]],
        [
          0x117,
          4,
          Array.from({ length: strips }, (_, n) => Math.min(stripBytes, pixels.length - n * stripBytes)),
        ],
        ...more,
      ] as Entry[]
    ).sort(([one], [other]) => one - other),
    data: pixels,
  })
  return writeTiff(recipe(writeTiff(recipe(0)).dataAt)).tiff
}
