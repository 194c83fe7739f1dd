/** First image file directory of a TIFF structure (TIFF 6.0, section 2), which Exif uses too. */
export interface TiffDirectory {
  /** Values of a tag; null when it is absent, malformed or not of a number type. */
  numbers(tag: number): readonly number[] | null
}

export const TAG = {
  newSubfileType: 0x00fe,
  stripOffsets: 0x0111,
  stripByteCounts: 0x0117,
  xResolution: 0x011a,
  resolutionUnit: 0x0128,
  tileOffsets: 0x0144,
  tileByteCounts: 0x0145,
  dngVersion: 0xc612,
} as const

// No picture has more strips or tiles; the bound keeps a hostile count from filling the memory.
const MAX_VALUES = 1_000_000

const ENTRY = 12

interface Entry {
  readonly type: number
  readonly count: number
  /** Where the value or its offset stands. */
  readonly at: number
}

/** Null when the data is no classic TIFF structure or its directory is not within it. Never throws. */
export function readDirectory(tiff: Buffer): TiffDirectory | null {
  const order = tiff.toString('latin1', 0, 2)
  if (tiff.length < 8 || (order !== 'II' && order !== 'MM')) return null
  const littleEndian = order === 'II'
  const u16 = (at: number) => (littleEndian ? tiff.readUInt16LE(at) : tiff.readUInt16BE(at))
  const u32 = (at: number) => (littleEndian ? tiff.readUInt32LE(at) : tiff.readUInt32BE(at))
  if (u16(2) !== 42) return null
  const start = u32(4)
  if (start + 2 > tiff.length) return null
  const count = u16(start)
  if (start + 2 + ENTRY * count > tiff.length) return null
  const entries = new Map<number, Entry>()
  for (let n = 0; n < count; n++) {
    const at = start + 2 + ENTRY * n
    entries.set(u16(at), { type: u16(at + 2), count: u32(at + 4), at: at + 8 })
  }

  // Types BYTE, SHORT, LONG and RATIONAL: size and how to read one.
  const types: Readonly<Record<number, { size: number; read: (at: number) => number }>> = {
    1: { size: 1, read: (at) => tiff.readUInt8(at) },
    3: { size: 2, read: u16 },
    4: { size: 4, read: u32 },
    5: { size: 8, read: (at) => u32(at) / u32(at + 4) },
  }

  return {
    numbers(tag) {
      const entry = entries.get(tag)
      const type = entry && types[entry.type]
      if (!entry || !type || entry.count === 0 || entry.count > MAX_VALUES) return null
      const bytes = type.size * entry.count
      const from = bytes <= 4 ? entry.at : u32(entry.at)
      if (from + bytes > tiff.length) return null
      return Array.from({ length: entry.count }, (_, n) => type.read(from + type.size * n))
    },
  }
}

/**
 * Whether a TIFF structure is a camera's raw file: a DNG (DNGVersion) or a first picture that is a reduced copy
 * of the real one (NewSubfileType bit 0), as TIFF/EP (ISO 12234-2) has it.
 */
export function isCameraRaw(tiff: Buffer): boolean {
  const directory = readDirectory(tiff)
  if (!directory) return false
  const [subfile = 0] = directory.numbers(TAG.newSubfileType) ?? []
  return directory.numbers(TAG.dngVersion) !== null || (subfile & 1) === 1
}

/**
 * Whether the directory, or a strip or tile of the first picture, lies beyond the end of the file. False where that
 * can't be told (a BigTIFF, no byte counts): the decoder judges then.
 */
export function lacksStrips(tiff: Buffer): boolean {
  if (tiff.toString('latin1', 0, 2) === 'II' ? tiff[2] !== 42 : tiff[3] !== 42) return false
  const directory = readDirectory(tiff)
  if (!directory) return true
  const offsets = directory.numbers(TAG.stripOffsets) ?? directory.numbers(TAG.tileOffsets) ?? []
  const sizes = directory.numbers(TAG.stripByteCounts) ?? directory.numbers(TAG.tileByteCounts) ?? []
  return offsets.some((offset, n) => offset + (sizes[n] ?? 0) > tiff.length)
}
