import { ORIENTATION } from '../exif/orientation.ts'

/** Types of values. @source TIFF 6.0, section 2. */
const TYPE = { ASCII: 2, SHORT: 3, LONG: 4 } as const
/** Bytes of the header, of the number of entries, of an entry, and of the pointer behind them. @source TIFF 6.0, section 2. */
const SIZE = { header: 8, count: 2, entry: 12, next: 4 } as const
/** Where the value stands in an entry. @source TIFF 6.0, section 2. */
const VALUE = 8
/** The pointer to the Exif directory. @source CIPA DC-008 (Exif), 4.6.3. */
const EXIF = 0x8769

/**
 * The payload of a JPEG's Exif segment that states an orientation and some texts.
 * @param texts tags of the Exif directory with their values as stored
 * @source CIPA DC-008 (Exif), 4.5.2 and 4.7.2: the layout of the segment.
 */
export function exifBlock(orientation: number, texts: readonly (readonly [number, Buffer])[]): Buffer {
  const sorted = texts.toSorted(([a], [b]) => a - b)
  const at = SIZE.header + directorySize(2)
  const behind = at + directorySize(sorted.length)
  const room = sorted.reduce((sum, [, text]) => sum + (text.length > 4 ? text.length : 0), 0)
  const tiff = Buffer.alloc(behind + room)
  tiff.write('II', 'latin1')
  tiff.writeUInt16LE(42, 2)
  tiff.writeUInt32LE(SIZE.header, 4)
  tiff.writeUInt16LE(2, SIZE.header)
  entry(tiff, SIZE.header, 0, [ORIENTATION, TYPE.SHORT, 1])
  tiff.writeUInt16LE(orientation, valueAt(SIZE.header, 0))
  entry(tiff, SIZE.header, 1, [EXIF, TYPE.LONG, 1])
  tiff.writeUInt32LE(at, valueAt(SIZE.header, 1))
  tiff.writeUInt16LE(sorted.length, at)
  let free = behind
  for (const [n, [tag, text]] of sorted.entries()) {
    entry(tiff, at, n, [tag, TYPE.ASCII, text.length])
    if (text.length <= 4) text.copy(tiff, valueAt(at, n))
    else {
      tiff.writeUInt32LE(free, valueAt(at, n))
      free += text.copy(tiff, free)
    }
  }
  return Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff])
}

function directorySize(entries: number): number {
  return SIZE.count + SIZE.entry * entries + SIZE.next
}

function entry(
  tiff: Buffer,
  directory: number,
  n: number,
  [tag, type, count]: [number, number, number],
): void {
  const at = directory + SIZE.count + SIZE.entry * n
  tiff.writeUInt16LE(tag, at)
  tiff.writeUInt16LE(type, at + 2)
  tiff.writeUInt32LE(count, at + 4)
}

function valueAt(directory: number, n: number): number {
  return directory + SIZE.count + SIZE.entry * n + VALUE
}
