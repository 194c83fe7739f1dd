import type { Outcome } from '../../../src/rules/outcome.ts'
import { COPYRIGHT, CREATOR, HEIGHT, WIDTH } from '../blocks.ts'
import { type Told, valuesOf } from './exiftool.ts'

/** The rules that passed although ExifTool reads otherwise, each with what it reads. */
export function deniedClaims(outcomes: readonly Outcome[], told: Told): string[] {
  return outcomes
    .filter(({ verdict }) => verdict === 'pass')
    .flatMap(({ rule }) => {
      const denied = CLAIMS[rule]?.(told) ?? null
      return denied === null ? [] : [`${rule} passes, but ExifTool reads ${denied}`]
    })
}

const one = (told: Told, ...names: readonly string[]) =>
  names.map((name) => told.get(name)).find((value) => value !== undefined)
const inSet = (told: Told, tag: string, wanted: string) =>
  valuesOf(told, tag).some((value) => value.split(/, |; /).includes(wanted) || value === wanted)

const CLAIMS: Readonly<Record<string, (told: Told) => string | null>> = {
  'file-format': (told) => {
    const type = one(told, 'File:FileType') ?? 'nothing'
    return /^(JPEG|PNG|TIFF|WEBP|Extended WEBP|AVIF|HEIF)$/.test(type) ? null : type
  },
  'pixel-size': (told) => {
    const size = `${one(told, 'File:ImageWidth', 'PNG:ImageWidth', 'RIFF:ImageWidth', 'IFD0:ImageWidth', 'Meta:ImageWidth')} x ${one(told, 'File:ImageHeight', 'PNG:ImageHeight', 'RIFF:ImageHeight', 'IFD0:ImageHeight', 'Meta:ImageHeight')}`
    return size === `${WIDTH} x ${HEIGHT}` ? null : size
  },
  resolution: (told) => {
    const values = [...valuesOf(told, 'XResolution'), ...valuesOf(told, 'PixelsPerUnitX')]
    // Where it refuses to look, it does not deny.
    if (values.length === 0 && told.has('ExifTool:Warning')) return null
    return values.some((value) => ['300', '11811', '118.11'].includes(value)) ? null : values.join(' and ')
  },
  'color-space': (told) => {
    const columns = ['Red', 'Green', 'Blue'].flatMap((color) =>
      (one(told, `ICC_Profile:${color}MatrixColumn`) ?? '').split(' ').map(Number),
    )
    const isSrgb =
      columns.length === 9 && columns.every((value, n) => Math.abs(value - (SRGB[n] ?? 0)) < 0.002)
    return isSrgb ? null : `colorants ${columns.join(' ')}`
  },
  'metadata-required': (told) => {
    const creator = ['Artist', 'Creator', 'By-line', 'Author'].some((tag) => inSet(told, tag, CREATOR))
    const rights = ['Copyright', 'Rights', 'CopyrightNotice'].some((tag) => inSet(told, tag, COPYRIGHT))
    return creator && rights ? null : 'another creator or copyright'
  },
  'metadata-forbidden': (told) => {
    const found = PRIVATE.flatMap((tag) =>
      valuesOf(told, tag)
        .filter(isFilled)
        .map((value) => `${tag} ${value}`),
    )
    return found.length === 0 ? null : found.join(', ')
  },
}

// Colorants of sRGB relative to D50, as in ICC profiles ("sRGB IEC61966-2.1", 1998).
const SRGB = [0.43607, 0.22249, 0.01392, 0.38515, 0.71687, 0.09708, 0.14307, 0.06061, 0.7141]
const PRIVATE = [
  'GPSLatitude',
  'GPSLongitude',
  'City',
  'SerialNumber',
  'BodySerialNumber',
  'OwnerName',
  'CameraOwnerName',
]
/** Blank and zero stand for nothing. */
const isFilled = (value: string) => value.trim() !== ''
