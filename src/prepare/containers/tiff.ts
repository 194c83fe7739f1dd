import type { Blocks } from './blocks.ts'
import { bytes, firstEntries, ifd, longs, unspecified } from './ifd.ts'

/** Tags of blocks. @source TIFF Revision 6.0; ICC.1:2022, B.2 (34675); ISO 16684-3 (700); the IPTC's, from memory (33723); CIPA DC-008 (34665). */
const TAG = { xmp: 700, iim: 33723, exif: 34665, icc: 34675 } as const

/** Resolution, which stays away where none is ordered. @source TIFF Revision 6.0, section 8. */
const RESOLUTION = [282, 283, 296]

/** The TIFF, as the library writes it (little-endian, one directory), with these blocks in place of those that it had. */
export function tiffWith(tiff: Buffer, { icc, xmp, iim, entries }: Blocks): Buffer {
  const body = tiff.length % 2 === 0 ? tiff : Buffer.concat([tiff, Buffer.alloc(1)])
  const second = ifd(entries.exif, body.length)
  const own = [
    ...entries.main,
    bytes(TAG.xmp, xmp),
    unspecified(TAG.iim, iim),
    longs(TAG.exif, body.length),
    unspecified(TAG.icc, icc),
  ]
  const replaced = new Set([...own.map(({ tag }) => tag), ...RESOLUTION])
  const kept = firstEntries(tiff).filter((entry) => !replaced.has(entry.readUInt16LE(0)))
  const place = body.length + second.length
  const whole = Buffer.concat([body, second, ifd(own, place, kept)])
  whole.writeUInt32LE(place, 4)
  return whole
}
