import { beginsWith } from './begins-with.ts'

/** An image file directory of a TIFF structure (TIFF 6.0, section 2), which Exif uses too. */
export interface TiffDirectory {
  /** All tags that stand in it, in file order. */
  readonly tags: readonly number[]
  /** Those that stand in it more than once: readers differ in which they take. */
  readonly repeated: readonly number[]
  /** Values of a tag; null when it is absent, malformed or not of a number type. */
  numbers(tag: number): readonly number[] | null
  /** The stored bytes of a tag's values; null when it is absent, of an unknown type or beyond the end of the data. */
  bytes(tag: number): Buffer | null
  /** Where the next directory of the chain stands; null when this is the last one. */
  readonly next: number | null
  /** Whether the values of all tags lie within the file; private ones apart, which nobody vouches for. */
  readonly whole: boolean
  /** The byte behind it and the values of its tags, as far as they lie within the file. */
  readonly end: number
}

/** Tags of a picture's directory. @source TIFF 6.0, section 8 and 15; dngVersion: Digital Negative specification. */
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

/** Most values of a tag that are read. @choice no picture has more strips or tiles; the bound keeps a hostile count from filling the memory. */
const MAX_VALUES = 1_000_000

/** Bytes of a directory's entry. @source TIFF 6.0, section 2. */
const ENTRY = 12

/** Where private tags start. @source TIFF 6.0, section 2. */
const PRIVATE = 32768

/** Types of values. @source TIFF 6.0, section 2; IFD: TIFF Technical Note 1; UTF-8: Exif 3.0 (CIPA DC-008-2023), 4.6.2. */
const TYPE = { BYTE: 1, SHORT: 3, LONG: 4, RATIONAL: 5, IFD: 13, UTF8: 129 } as const

/** Those that are read as numbers. */
const NUMBERS: readonly number[] = [TYPE.BYTE, TYPE.SHORT, TYPE.LONG, TYPE.RATIONAL, TYPE.IFD]

/** Bytes of one value of the types 1 (BYTE) to 13 (IFD). @source TIFF 6.0, section 2; IFD: TIFF Technical Note 1. */
const SIZES = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4]
const sizeOf = (type: number) => (type === TYPE.UTF8 ? 1 : SIZES[type]) ?? 0

interface Entry {
  readonly type: number
  readonly count: number
  /** Where its values begin, and the byte behind them. */
  readonly from: number
  readonly to: number
}

// The header, the container and the metadata ask for the same ones.
const known = new WeakMap<Buffer, TiffDirectory | null>()

/**
 * Null when the data is no classic TIFF structure or the directory is not within it. Never throws.
 * @param tiff is not changed between two calls
 * @param place where the directory stands; the first one unless told
 */
export function readDirectory(tiff: Buffer, place?: number): TiffDirectory | null {
  if (place !== undefined) return readAt(tiff, place)
  const first = known.has(tiff) ? known.get(tiff) : readAt(tiff, null)
  known.set(tiff, first ?? null)
  return first ?? null
}

/**
 * The directory at a place, the first one for null.
 * @source TIFF 6.0, section 2: the layout of header, directory and entries.
 */
function readAt(tiff: Buffer, place: number | null): TiffDirectory | null {
  const littleEndian = beginsWith(tiff, 'II')
  if (tiff.length < 8 || (!littleEndian && !beginsWith(tiff, 'MM'))) return null
  const u16 = (at: number) => (littleEndian ? tiff.readUInt16LE(at) : tiff.readUInt16BE(at))
  const u32 = (at: number) => (littleEndian ? tiff.readUInt32LE(at) : tiff.readUInt32BE(at))
  if (u16(2) !== 42) return null
  const start = place ?? u32(4)
  // A pointer may be written as a fraction.
  if (!Number.isInteger(start) || start + 2 > tiff.length) return null
  const count = u16(start)
  if (start + 2 + ENTRY * count > tiff.length) return null
  const entries = new Map<number, Entry>()
  const repeated: number[] = []
  for (let n = 0; n < count; n++) {
    const at = start + 2 + ENTRY * n
    const type = u16(at + 2)
    const bytes = sizeOf(type) * u32(at + 4)
    const from = bytes <= 4 ? at + 8 : u32(at + 8)
    // Of a tag that comes twice the first one counts, as libexif and libtiff have it.
    if (entries.has(u16(at))) repeated.push(u16(at))
    else entries.set(u16(at), { type, count: u32(at + 4), from, to: from + bytes })
  }

  const behind = start + 2 + ENTRY * count
  const next = behind + 4 <= tiff.length ? u32(behind) : 0
  let end = Math.min(tiff.length, behind + 4)
  let whole = true
  for (const [tag, { to }] of entries) {
    if (to <= tiff.length) end = Math.max(end, to)
    else if (tag < PRIVATE) whole = false
  }

  const read = (type: number, at: number) => {
    if (type === TYPE.BYTE) return tiff.readUInt8(at)
    if (type === TYPE.SHORT) return u16(at)
    return type === TYPE.RATIONAL ? u32(at) / u32(at + 4) : u32(at)
  }

  return {
    tags: [...entries.keys()],
    repeated,
    next: next === 0 ? null : next,
    end,
    whole,
    numbers(tag) {
      const entry = entries.get(tag)
      if (!entry || !NUMBERS.includes(entry.type) || entry.to > tiff.length) return null
      const { type, count, from } = entry
      if (count === 0 || count > MAX_VALUES) return null
      const size = sizeOf(type)
      return Array.from({ length: count }, (_, n) => read(type, from + size * n))
    },
    bytes(tag) {
      const entry = entries.get(tag)
      if (!entry || sizeOf(entry.type) === 0 || entry.to > tiff.length) return null
      return tiff.subarray(entry.from, entry.to)
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
 * Whether the first directory, a value of it, or a strip or tile of its picture lies beyond the end of the file. False
 * where that can't be told (a BigTIFF, no byte counts): the decoder judges then.
 * @source TIFF 6.0, section 2: 42 behind the byte order.
 */
export function isCutShort(tiff: Buffer): boolean {
  if (beginsWith(tiff, 'II') ? tiff[2] !== 42 : tiff[3] !== 42) return false
  const directory = readDirectory(tiff)
  if (!directory?.whole) return true
  const offsets = directory.numbers(TAG.stripOffsets) ?? directory.numbers(TAG.tileOffsets) ?? []
  const sizes = directory.numbers(TAG.stripByteCounts) ?? directory.numbers(TAG.tileByteCounts) ?? []
  return offsets.some((offset, n) => offset + (sizes[n] ?? 0) > tiff.length)
}
