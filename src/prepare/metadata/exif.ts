import {
  type Entry,
  ifd,
  LITTLE_ENDIAN,
  longs,
  rationals,
  shorts,
  texts,
  unspecified,
} from '../containers/ifd.ts'
import type { Labels } from './labels.ts'

/** Tags that are written. @source CIPA DC-008-2023 (Exif 3.0), 4.6. */
const TAG = {
  description: 0x010e,
  orientation: 0x0112,
  xResolution: 0x011a,
  yResolution: 0x011b,
  resolutionUnit: 0x0128,
  artist: 0x013b,
  copyright: 0x8298,
  exif: 0x8769,
  version: 0x9000,
  captured: 0x9003,
  zone: 0x9011,
  fraction: 0x9291,
  colorSpace: 0xa001,
} as const

/** ColorSpace: sRGB, and anything else. @source CIPA DC-008-2023, 4.6.5, tag 0xA001. */
const SRGB = 1
const UNCALIBRATED = 0xffff

/** Entries of the first directory, which TIFF files have among their own. */
export function mainEntries({ fields, ppi }: Labels): Entry[] {
  const [description] = fields.description ?? []
  const [copyright] = fields.copyright ?? []
  const creators = fields.creator ?? []
  return [
    ...(description === undefined ? [] : [texts(TAG.description, description)]),
    shorts(TAG.orientation, 1),
    ...(ppi === null
      ? []
      : [rationals(TAG.xResolution, ppi), rationals(TAG.yResolution, ppi), shorts(TAG.resolutionUnit, 2)]),
    // Several creators are divided by semicolons: MWG Guidelines 2.0, 5.3.
    ...(creators.length === 0 ? [] : [texts(TAG.artist, creators.join('; '))]),
    ...(copyright === undefined ? [] : [texts(TAG.copyright, copyright)]),
  ]
}

/** Entries of the Exif directory. */
export function exifEntries({ fields, colorSpace }: Labels): Entry[] {
  const [captured = ''] = fields['capture-time'] ?? []
  const time = /^(\d{4})-(\d\d)-(\d\d)T(\d\d:\d\d:\d\d)(?:\.(\d+))?(Z|[+-]\d\d:\d\d)?$/.exec(captured)
  const [, year, month, day, clock, fraction, zone] = time ?? []
  return [
    unspecified(TAG.version, Buffer.from('0232')),
    ...(time ? [texts(TAG.captured, `${year}:${month}:${day} ${clock}`)] : []),
    ...(zone ? [texts(TAG.zone, zone === 'Z' ? '+00:00' : zone)] : []),
    ...(fraction ? [texts(TAG.fraction, fraction)] : []),
    shorts(TAG.colorSpace, colorSpace === 'sRGB' ? SRGB : UNCALIBRATED),
  ]
}

/** An Exif block: a TIFF structure of two directories. Texts are in UTF-8 (MWG Guidelines 2.0, 3.2). */
export function exifBlock(labels: Labels): Buffer {
  const main = mainEntries(labels)
  const place = LITTLE_ENDIAN.length
  // The pointer's own entry has the same length whatever it points to.
  const length = ifd([...main, longs(TAG.exif, 0)], place).length
  const second = ifd(exifEntries(labels), place + length)
  return Buffer.concat([LITTLE_ENDIAN, ifd([...main, longs(TAG.exif, place + length)], place), second])
}
