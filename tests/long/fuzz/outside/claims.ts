import type { Outcome } from '../../../../src/rules/contract/outcome.ts'
import { COPYRIGHT, CREATOR, HEIGHT, WIDTH } from '../blocks.ts'
import { type Told, valuesOf } from './exiftool.ts'

/**
 * The rules that passed although ExifTool reads otherwise, each with what it reads. Where it reads nothing and says that
 * something is wrong, or the measuring itself says so, it does not deny.
 */
export function deniedClaims(outcomes: readonly Outcome[], told: Told, partlyUnread: boolean): string[] {
  const isSilent = told.has('ExifTool:Warning') || told.has('ExifTool:Error') || partlyUnread
  return outcomes
    .filter(({ verdict }) => verdict === 'pass')
    .flatMap(({ rule }) => {
      const denied = CLAIMS[rule]?.(told) ?? null
      // What is asked was found in another part than the one that is told as unread.
      if (rule === 'metadata-required' && partlyUnread) return []
      return denied === null || (denied === NOTHING && isSilent)
        ? []
        : [`${rule} passes, but ExifTool reads ${denied}`]
    })
}

const NOTHING = 'nothing'
/** What is read, in words, unless it is as wanted. */
const unless = (isAsWanted: boolean, read: readonly string[]) =>
  isAsWanted ? null : read.join(', ') || NOTHING

/** 300 ppi, per meter and per centimeter too, and the share that a tag may be off by as the rule says: 0.5 ppi. */
const IN_EACH_UNIT = [300, 11811, 118.11]
const OFF = 0.5 / 300

const first = (told: Told, names: readonly string[]) =>
  names.map((name) => told.get(name)).find((value) => value !== undefined)
const all = (told: Told, tags: readonly string[]) => tags.flatMap((tag) => valuesOf(told, tag))
const parts = (values: readonly string[]) => values.flatMap((value) => [value, ...value.split(/, |; /)])

/*
 * XmpmetaCreator and XmpmetaRights are what ExifTool calls dc:creator and dc:rights where the namespace of the outer
 * x:xmpmeta is spoiled. That element is optional: what counts is rdf:RDF, which is whole (ISO 16684-1, 7.3.2 and 7.3.3).
 */
const CLAIMS: Readonly<Record<string, (told: Told) => string | null>> = {
  'file-format': (told) => {
    const type = first(told, ['File:FileType'])
    return unless(/^(?:JPEG|PNG|TIFF|(?:Extended )?WEBP|AVIF|HEIF)$/.test(type ?? ''), type ? [type] : [])
  },
  'pixel-size': (told) => {
    const sides = ['ImageWidth', 'ImageHeight'].map((side) =>
      first(
        told,
        ['File', 'PNG', 'RIFF', 'IFD0', 'Meta'].map((group) => `${group}:${side}`),
      ),
    )
    return unless(
      sides.join(' x ') === `${WIDTH} x ${HEIGHT}`,
      sides.filter((side) => side !== undefined),
    )
  },
  resolution: (told) => {
    const values = all(told, ['XResolution', 'PixelsPerUnitX']).flatMap((value) => value.split(' ', 1))
    return unless(
      values.some((value) => IN_EACH_UNIT.some((one) => Math.abs(Number(value) / one - 1) <= OFF)),
      values,
    )
  },
  'color-space': (told) => {
    const columns = ['Red', 'Green', 'Blue'].flatMap((color) => {
      const column = told.get(`ICC_Profile:${color}MatrixColumn`)
      return column === undefined ? [] : column.split(' ')
    })
    const isSrgb =
      columns.length === 9 && columns.every((value, n) => Math.abs(Number(value) - (SRGB[n] ?? 0)) < 0.002)
    return unless(isSrgb, columns)
  },
  'metadata-required': (told) => {
    const creators = parts(all(told, ['Artist', 'Creator', 'By-line', 'Author', 'XmpmetaCreator']))
    const rights = parts(all(told, ['Copyright', 'Rights', 'CopyrightNotice', 'XmpmetaRights']))
    return unless(creators.includes(CREATOR) && rights.includes(COPYRIGHT), [...creators, ...rights])
  },
  'metadata-forbidden': (told) => {
    const found = all(told, PRIVATE).filter((value) => value.trim() !== '')
    return found.length === 0 ? null : found.join(', ')
  },
}

// Colorants of sRGB relative to D50, as in ICC profiles ("sRGB IEC61966-2.1", 1998).
const SRGB = [0.43607, 0.22249, 0.01392, 0.38515, 0.71687, 0.09708, 0.14307, 0.06061, 0.7141]
const PRIVATE = [
  ...['GPSLatitude', 'GPSLongitude', 'City'],
  ...['SerialNumber', 'BodySerialNumber', 'OwnerName', 'CameraOwnerName'],
]
