import { crc32, deflateSync } from 'node:zlib'
import type { Blocks } from './blocks.ts'

/** Length of the signature. @source W3C, Portable Network Graphics (Third Edition), 5.2. */
const SIGNATURE = 8

/** Chunks that belong to the picture itself. @source W3C PNG (Third Edition), 11.2 and 11.3.1. */
const PICTURE = ['IHDR', 'PLTE', 'tRNS', 'IDAT', 'IEND']

/** Meters in an inch. @source international inch of 1959. */
const INCH_M = 0.0254

/** The PNG with these blocks in place of all others that it had. @source W3C PNG (Third Edition), 11.3. */
export function pngWith(png: Buffer, { icc, exif, xmp, ppi }: Blocks): Buffer {
  const parts = [png.subarray(0, SIGNATURE)]
  for (let at = SIGNATURE; at + 12 <= png.length; ) {
    const end = at + 12 + png.readUInt32BE(at)
    const type = png.toString('latin1', at + 4, at + 8)
    if (PICTURE.includes(type)) parts.push(png.subarray(at, end))
    if (type === 'IHDR') {
      const named = Buffer.from('ICC profile\0\0', 'latin1')
      parts.push(chunk('iCCP', Buffer.concat([named, deflateSync(icc)])))
      if (ppi !== null) parts.push(chunk('pHYs', perMeter(ppi)))
      parts.push(chunk('eXIf', exif))
      parts.push(chunk('iTXt', Buffer.concat([Buffer.from('XML:com.adobe.xmp\0\0\0\0\0', 'latin1'), xmp])))
    }
    at = end
  }
  return Buffer.concat(parts)
}

function perMeter(ppi: number): Buffer {
  const data = Buffer.alloc(9)
  data.writeUInt32BE(Math.round(ppi / INCH_M), 0)
  data.writeUInt32BE(Math.round(ppi / INCH_M), 4)
  data[8] = 1
  return data
}

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data])
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)]
  length.writeUInt32BE(data.length)
  check.writeUInt32BE(crc32(body))
  return Buffer.concat([length, body, check])
}
