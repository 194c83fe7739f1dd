import { below, pick } from '../chance.ts'
import { extremeNumber } from './bytes.ts'
import type { Mutator } from './mutator.ts'

/**
 * Spoils an image file directory, of a TIFF or of an Exif block: counts and offsets beyond the end, directories that
 * lead to themselves or to each other, values that lie upon each other.
 */
export const spoilDirectory: Mutator = (content, random) => {
  const starts = ['II\x2a\0', 'MM\0\x2a'].flatMap((head) => placesOf(content, head))
  if (starts.length === 0) return extremeNumber(content, random)
  const copy = Buffer.from(content)
  const base = pick(random, starts)
  const tiff = copy.subarray(base)
  const littleEndian = tiff[0] === 0x49
  const u16 = (at: number) => (littleEndian ? tiff.readUInt16LE(at) : tiff.readUInt16BE(at))
  const u32 = (at: number) => (littleEndian ? tiff.readUInt32LE(at) : tiff.readUInt32BE(at))
  const put = (value: number, at: number, bytes: 2 | 4) => {
    const fits = Math.max(0, value) % 2 ** (8 * bytes)
    if (at + bytes > tiff.length) return
    if (littleEndian) tiff.writeUIntLE(fits, at, bytes)
    else tiff.writeUIntBE(fits, at, bytes)
  }
  const directory = u32(4)
  if (directory + 14 > tiff.length) return extremeNumber(content, random)
  const count = Math.max(1, Math.min(u16(directory), Math.floor((tiff.length - directory - 6) / 12)))
  const entry = directory + 2 + 12 * below(random, count)
  const next = directory + 2 + 12 * count
  const changes: readonly (() => void)[] = [
    () => put(pick(random, [0, 0xffff, count + 1, count - 1]), directory, 2),
    () => put(pick(random, [directory, 0xffffffff, entry, below(random, tiff.length)]), next, 4),
    () => put(pick(random, [8, directory, entry, 0xffffffff, below(random, tiff.length)]), entry + 8, 4),
    () => put(pick(random, [0, 1, 0x7fffffff, 0xffffffff, 1_000_000, 65_536]), entry + 4, 4),
    () => put(below(random, 20), entry + 2, 2),
    () =>
      put(pick(random, [0x8769, 0x8825, 0x014a, 0x0201, 0x02bc, 0x8649, below(random, 0xffff)]), entry, 2),
    () => put(pick(random, [0, directory + 1, 0xffffffff, below(random, tiff.length)]), 4, 4),
  ]
  for (let n = below(random, 3); n >= 0; n--) pick(random, changes)()
  return copy
}

function placesOf(content: Buffer, head: string): number[] {
  const places: number[] = []
  for (let at = content.indexOf(head, 0, 'latin1'); at >= 0; at = content.indexOf(head, at + 1, 'latin1'))
    places.push(at)
  return places
}
