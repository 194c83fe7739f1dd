import { beginsWith } from '../../file/bytes/begins-with.ts'
import { readSegments } from '../../file/bytes/segments.ts'
import { withoutExifCode } from '../../file/exif/code.ts'
import { isBlank } from '../../file/exif/text.ts'
import { assembleXmp } from './extended-xmp.ts'
import { hiddenPicture, NO_BLOCKS, type RawBlocks, trailer } from './raw-blocks.ts'

/**
 * What an application segment begins with, in the order in which they are tried.
 * @source JFIF (ITU-T T.871, 10.1 and 10.2); Exif (CIPA DC-008, 4.7.2); XMP in JPEG (ISO 16684-3, "Embedding XMP in JPEG"); ICC.1:2022
 * Annex B.4; Adobe Photoshop and DCT technical notes; `Ducky` (a quality setting) from memory.
 */
const SEGMENTS = {
  jfif: [0, 'JFIF\0'],
  jfxx: [0, 'JFXX\0'],
  exif: [1, 'Exif\0'],
  xmp: [1, 'http://ns.adobe.com/xap/1.0/\0'],
  extendedXmp: [1, 'http://ns.adobe.com/xmp/extension/\0'],
  icc: [2, 'ICC_PROFILE\0'],
  ducky: [12, 'Ducky'],
  resources: [13, 'Photoshop 3.0\0'],
  adobe: [14, 'Adobe'],
} as const
type Kind = keyof typeof SEGMENTS
const KINDS = Object.keys(SEGMENTS) as Kind[]

export function jpegBlocks(jpeg: Buffer): RawBlocks {
  const { apps, comments, trailing } = readSegments(jpeg)
  const kinds = new Map<Kind, Buffer[]>()
  const others = new Map<string, number>()
  for (const { n, payload } of apps) {
    const kind = kindOf(n, payload)
    if (kind) {
      const payloads = kinds.get(kind) ?? []
      payloads.push(payload)
      kinds.set(kind, payloads)
    } else {
      const where = `JPEG segment APP${n}`
      others.set(where, (others.get(where) ?? 0) + payload.length)
    }
  }
  const opaque = [...others].map(([where, bytes]) => ({ where, bytes }))
  const of = (kind: Kind) => kinds.get(kind) ?? []
  const body = (kind: Kind) => of(kind).map((payload) => payload.subarray(SEGMENTS[kind][1].length))
  const resources = body('resources')
  const extended = assembleXmp(body('extendedXmp'))
  return {
    ...NO_BLOCKS,
    exif: of('exif').map((payload) => ({ where: 'EXIF', tiff: withoutExifCode(payload) })),
    xmp: [...body('xmp').map((packet) => ({ where: 'XMP', packet })), ...extended.packets],
    // Blocks may run on from one segment to the next.
    resources: resources.length > 0 ? Buffer.concat(resources) : null,
    comments: comments.filter((comment) => !isBlank(comment)).length,
    previews: [
      ...comments.flatMap((comment) => hiddenPicture('JPEG comment', comment)),
      ...of('jfif').flatMap(jfifThumbnail),
      ...of('jfxx').map(jfxxThumbnail),
    ],
    opaque: [...opaque, ...trailer(jpeg.subarray(jpeg.length - trailing))],
    unreadable: extended.unreadable,
  }
}

function kindOf(n: number, payload: Buffer): Kind | undefined {
  return KINDS.find((kind) => n === SEGMENTS[kind][0] && beginsWith(payload, SEGMENTS[kind][1]))
}

/** An uncompressed thumbnail. @source ITU-T T.871, 10.1: its width and height, 0 for none. */
function jfifThumbnail(payload: Buffer) {
  return payload.length >= 14 && payload.readUInt8(12) * payload.readUInt8(13) > 0
    ? [{ where: 'JFIF thumbnail', picture: null }]
    : []
}

/** A thumbnail in an extension segment. @source ITU-T T.871, 10.2: code 0x10 stands for one in JPEG. */
function jfxxThumbnail(payload: Buffer) {
  return { where: 'JFXX thumbnail', picture: payload[5] === 0x10 ? payload.subarray(6) : null }
}
