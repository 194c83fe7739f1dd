import {
  ascii,
  bytes,
  exifSegment,
  long,
  rational,
  short,
  writeExif,
} from '../../measure/file/exif/exif-writer.ts'
import { resource, resourceSegment, UTF8, writeIim } from '../../measure/metadata/formats/iim-writer.ts'
import { alt, packet, seq } from '../../measure/metadata/formats/xmp-writer.ts'

export const CREATOR = 'Mika Thorne'
export const COPYRIGHT = '(c) 2026 Osprey Lane Veterinary Group'
export const WIDTH = 160
export const HEIGHT = 200

/** Whether a file tells where it was taken and whose camera took it. */
export type Privacy = 'clean' | 'private'

export function exif(privacy: Privacy, preview?: Buffer): Buffer {
  return writeExif({
    main: [
      ascii(0x013b, CREATOR),
      ascii(0x8298, COPYRIGHT),
      short(0x0112, 1),
      rational(0x011a, 300, 1),
      rational(0x011b, 300, 1),
      short(0x0128, 2),
    ],
    exif: [
      ascii(0x9003, '2026:03:05 10:21:35'),
      long(0xa002, WIDTH),
      long(0xa003, HEIGHT),
      ...(privacy === 'private' ? [ascii(0xa431, 'SN-4711'), ascii(0xa430, 'Pat Owner')] : []),
    ],
    ...(privacy === 'private' && {
      gps: [
        bytes(0x0000, Buffer.from([2, 3, 0, 0])),
        ascii(0x0001, 'N'),
        rational(0x0002, 51, 1, 30, 1, 12, 1),
        ascii(0x0003, 'W'),
        rational(0x0004, 0, 1, 7, 1, 39, 1),
      ],
    }),
    ...(preview && { preview }),
  })
}

export function xmp(privacy: Privacy): Buffer {
  const place = privacy === 'private' ? '<photoshop:City>Ospreyville</photoshop:City>' : ''
  return packet(`${seq('dc:creator', CREATOR)}${alt('dc:rights', { 'x-default': COPYRIGHT })}${place}`)
}

export function iim(privacy: Privacy): Buffer {
  return writeIim([
    UTF8,
    [2, 0, Buffer.from([0, 4])],
    [2, 80, CREATOR],
    [2, 116, COPYRIGHT],
    ...(privacy === 'private' ? ([[2, 90, 'Ospreyville']] as const) : []),
  ])
}

export const exifPart = (privacy: Privacy, preview?: Buffer) => exifSegment(exif(privacy, preview))
export const resourcesPart = (privacy: Privacy) => resourceSegment(resource(0x0404, iim(privacy)))
