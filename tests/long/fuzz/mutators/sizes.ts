import { below, pick, type Random } from '../chance.ts'
import { extremeNumber } from './bytes.ts'
import type { Mutator } from './mutator.ts'

interface Field {
  readonly at: number
  readonly bytes: 2 | 4
  readonly littleEndian: boolean
}

/** Width or height as the header states it, or both, beyond reason: 0, 60,000, all ones. */
export const absurdSize: Mutator = (content, random) => {
  const fields = sizeFields(content)
  if (fields.length === 0) return extremeNumber(content, random)
  const copy = Buffer.from(content)
  for (const { at, bytes, littleEndian } of chosen(fields, random)) {
    const value = pick(random, [0, 1, 60_000, 65_535, 100_000_000, 0xffffffff, below(random, 3000)])
    const fits = value % 2 ** (8 * bytes)
    if (littleEndian) copy.writeUIntLE(fits, at, bytes)
    else copy.writeUIntBE(fits, at, bytes)
  }
  return copy
}

function chosen(fields: readonly Field[], random: Random): readonly Field[] {
  return random() < 0.4 ? fields : [pick(random, fields)]
}

function sizeFields(content: Buffer): Field[] {
  const pair = (at: number, bytes: 2 | 4, littleEndian = false): Field[] =>
    at < 0 || at + 2 * bytes > content.length
      ? []
      : [
          { at, bytes, littleEndian },
          { at: at + bytes, bytes, littleEndian },
        ]
  const found = (text: string) => content.indexOf(text, 0, 'latin1')
  const behind = (text: string, offset: number) => (found(text) < 0 ? -1 : found(text) + offset)
  const head = content.toString('latin1', 0, 4)
  // ITU-T T.81 B.2.2; PNG, third edition, 11.2.1; RFC 9649, 2.7 (VP8X) and RFC 6386, 9.1; ISO/IEC 23008-12, 6.5.3.
  if (head.startsWith('\xff\xd8'))
    return [...pair(behind('\xff\xc0', 5), 2), ...pair(behind('\xff\xc2', 5), 2)]
  if (head === '\x89PNG') return pair(16, 4)
  if (head === 'RIFF')
    return [...pair(behind('VP8X', 12), 2, true), ...pair(behind('\x9d\x01\x2a', 3), 2, true)]
  if (head.startsWith('II') || head.startsWith('MM')) return tiffFields(content, head.startsWith('II'))
  return pair(behind('ispe', 8), 4)
}

/** Values of ImageWidth, ImageLength, RowsPerStrip, TileWidth and TileLength in the first directory. TIFF 6.0. */
function tiffFields(tiff: Buffer, littleEndian: boolean): Field[] {
  const u16 = (at: number) => (littleEndian ? tiff.readUInt16LE(at) : tiff.readUInt16BE(at))
  const start = littleEndian ? tiff.readUInt32LE(4) : tiff.readUInt32BE(4)
  if (start + 2 > tiff.length) return []
  const count = Math.min(u16(start), Math.floor((tiff.length - start - 2) / 12))
  return Array.from({ length: count }, (_, n) => start + 2 + 12 * n)
    .filter((at) => [0x100, 0x101, 0x116, 0x142, 0x143].includes(u16(at)))
    .map((at) => ({ at: at + 8, bytes: u16(at + 2) === 3 ? (2 as const) : (4 as const), littleEndian }))
}
