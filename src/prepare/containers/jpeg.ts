import { createHash } from 'node:crypto'
import { RESOURCE } from '../../measure/metadata/blocks/photoshop.ts'
import type { Blocks } from './blocks.ts'

/** Markers. @source ITU-T T.81, table B.1. */
const SOS = 0xda
const EOI = 0xd9
const APP = (n: number) => 0xe0 + n
const COM = 0xfe
/** Tells how colors are stored: Adobe Technical Note 5116. */
const ADOBE = APP(14)

/** Most bytes of a segment's content: its length is of 16 bits and counts itself. @source ITU-T T.81, B.1.1.4. */
const MOST = 65533

/** Most bytes of a profile in one segment, after its own head. @source ICC.1:2022, B.4. */
const ICC_PART = MOST - 14

/** The JPEG with these blocks in place of all others that it had; its picture stays as it is, bit by bit. */
export function jpegWith(jpeg: Buffer, { icc, exif, xmp, iim, ppi }: Blocks): Buffer {
  const parts = [jpeg.subarray(0, 2), jfif(ppi)]
  parts.push(segment(APP(1), Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), exif])))
  parts.push(segment(APP(1), Buffer.concat([Buffer.from('http://ns.adobe.com/xap/1.0/\0', 'latin1'), xmp])))
  parts.push(...iccSegments(icc))
  parts.push(segment(APP(13), photoshop(iim)))
  return Buffer.concat([...parts, ...pictureParts(jpeg)])
}

/** What a decoder needs: tables, frame, scans; the marker that tells how colors are stored; nothing after the picture's end. */
function pictureParts(jpeg: Buffer): Buffer[] {
  const parts: Buffer[] = []
  for (let at = 2; at + 4 <= jpeg.length; ) {
    const marker = jpeg[at + 1] as number
    if (jpeg[at] !== 0xff || marker === EOI) break
    if (marker === 0xff) {
      at++
      continue
    }
    const after = at + 2 + jpeg.readUInt16BE(at + 2)
    const end = marker === SOS ? endOfScan(jpeg, after) : after
    const isMetadata = (marker >= APP(0) && marker <= APP(15) && marker !== ADOBE) || marker === COM
    if (!isMetadata) parts.push(jpeg.subarray(at, end))
    at = end
  }
  return [...parts, Buffer.from([0xff, EOI])]
}

/** Where the next marker stands that is neither a restart nor a stuffed byte. @source ITU-T T.81, B.1.1.5 and E.1.4. */
function endOfScan(jpeg: Buffer, start: number): number {
  for (let at = jpeg.indexOf(0xff, start); at >= 0 && at + 1 < jpeg.length; at = jpeg.indexOf(0xff, at + 1)) {
    const next = jpeg[at + 1] as number
    if (next !== 0 && next !== 0xff && (next < 0xd0 || next > 0xd7)) return at
  }
  return jpeg.length
}

function segment(marker: number, content: Buffer): Buffer {
  if (content.length > MOST)
    throw new Error(`A block of ${content.length} bytes does not fit into a segment of a JPEG.`)
  const head = Buffer.from([0xff, marker, 0, 0])
  head.writeUInt16BE(content.length + 2, 2)
  return Buffer.concat([head, content])
}

/** @source ITU-T T.871, 10.1: version 1.02, dots per inch, or square pixels without a size. */
function jfif(ppi: number | null): Buffer {
  const content = Buffer.from('JFIF\0\x01\x02\0\0\x01\0\x01\0\0', 'latin1')
  if (ppi !== null && ppi < 65535.5) {
    content[7] = 1
    content.writeUInt16BE(Math.round(ppi), 8)
    content.writeUInt16BE(Math.round(ppi), 10)
  }
  return segment(APP(0), content)
}

/** @source ICC.1:2022, B.4. */
function iccSegments(icc: Buffer): Buffer[] {
  const count = Math.ceil(icc.length / ICC_PART)
  return Array.from({ length: count }, (_, index) =>
    segment(
      APP(2),
      Buffer.concat([
        Buffer.from('ICC_PROFILE\0', 'latin1'),
        Buffer.from([index + 1, count]),
        icc.subarray(index * ICC_PART, (index + 1) * ICC_PART),
      ]),
    ),
  )
}

/** Image resources with IPTC-IIM and its digest. @source Adobe Photoshop File Formats Specification; the digest: MWG Guidelines 2.0, 3.3. */
function photoshop(iim: Buffer): Buffer {
  const digest = createHash('md5').update(iim).digest()
  const head = Buffer.from('Photoshop 3.0\0', 'latin1')
  return Buffer.concat([head, resource(RESOURCE.iim, iim), resource(RESOURCE.iimDigest, digest)])
}

function resource(id: number, data: Buffer): Buffer {
  const head = Buffer.alloc(12)
  head.write('8BIM', 0, 'latin1')
  head.writeUInt16BE(id, 4)
  head.writeUInt32BE(data.length, 8)
  return Buffer.concat([head, data, Buffer.alloc(data.length % 2)])
}
