import { crc32 } from 'node:zlib'

/**
 * A spoiled PNG with the checksums of its chunks made right, and a spoiled WebP with the size of its whole made right:
 * else what is wrong within would never be looked at. Other content as it is.
 */
export function withRightChecksums(content: Buffer): Buffer {
  const head = content.toString('latin1', 0, 4)
  if (head === 'RIFF' && content.length >= 8) {
    const copy = Buffer.from(content)
    copy.writeUInt32LE(copy.length - 8, 4)
    return copy
  }
  if (head !== '\x89PNG') return content
  const copy = Buffer.from(content)
  for (let at = 8; at + 12 <= copy.length; ) {
    const end = at + 8 + copy.readUInt32BE(at)
    if (end + 4 > copy.length) break
    copy.writeUInt32BE(crc32(copy.subarray(at + 4, end)), end)
    at = end + 4
  }
  return copy
}
