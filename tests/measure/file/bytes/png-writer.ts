import { crc32, deflateSync } from 'node:zlib'

/** A PNG chunk with its length and checksum. */
export function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data])
  const bytes = Buffer.alloc(8)
  bytes.writeUInt32BE(data.length, 0)
  bytes.writeUInt32BE(crc32(body), 4)
  return Buffer.concat([bytes.subarray(0, 4), body, bytes.subarray(4)])
}

/** `pHYs`: pixels a unit; the unit is 1 for the metre, 0 for none. */
export function physical(x: number, y: number, unit: number): Buffer {
  const data = Buffer.alloc(9)
  data.writeUInt32BE(x, 0)
  data.writeUInt32BE(y, 4)
  data.writeUInt8(unit, 8)
  return chunk('pHYs', data)
}

/** `iCCP` with a compressed profile. */
export function iccp(icc: Buffer): Buffer {
  return chunk('iCCP', Buffer.concat([Buffer.from('profile\0\0', 'latin1'), deflateSync(icc)]))
}

const AFTER_IHDR = 33

/** The PNG with these chunks behind its IHDR, and without any of the same types that it had. */
export function withChunks(png: Buffer, chunks: readonly Buffer[]): Buffer {
  const types = chunks.map((bytes) => bytes.toString('latin1', 4, 8))
  const kept: Buffer[] = []
  for (let at = AFTER_IHDR; at < png.length; ) {
    const end = at + 12 + png.readUInt32BE(at)
    if (!types.includes(png.toString('latin1', at + 4, at + 8))) kept.push(png.subarray(at, end))
    at = end
  }
  return Buffer.concat([png.subarray(0, AFTER_IHDR), ...chunks, ...kept])
}
