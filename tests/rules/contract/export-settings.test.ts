import { Ajv } from 'ajv'
import { describe, expect, test } from 'vitest'
import type { Fault } from '../../../src/measure/schema/fault.ts'
import type { Measurements } from '../../../src/measure/schema/measurements.ts'
import { NO_COMPARISON } from '../../../src/measure/schema/preview-facts.ts'
import { ExportSettings } from '../../../src/rules/contract/export-settings.ts'
import { RULES } from '../../../src/rules/index.ts'
import { GOOD, GOOD_NAME, metadata } from '../judging/cases.ts'

const jpeg = (changes: Partial<NonNullable<Measurements['jpeg']>>) => ({
  jpeg: { ...(GOOD.jpeg as NonNullable<Measurements['jpeg']>), ...changes },
})
const fault = (kind: Fault['kind'], format = 'jpeg') => ({ format, fault: { kind, detail: '' } })
const color = (space: 'rgb' | 'gray' | 'cmyk', profile: 'Adobe RGB (1998)' | 'other' | 'none') => ({
  color: { space, profile, profileName: null },
})
const preview = {
  ...{ where: 'EXIF thumbnail', bytes: 4711, widthPx: 160, heightPx: 120 },
  ...NO_COMPARISON,
  shows: 'other-picture' as const,
}
const place = { item: 'coordinates', where: ['EXIF GPSLatitude', 'XMP exif:GPSLatitude'] } as const

/** What is wrong with the good portrait, and how it is to be saved again; null where saving again is not the fix. */
const CASES: readonly (readonly [
  rule: string,
  what: string,
  options: unknown,
  Partial<Measurements>,
  ExportSettings | null,
])[] = [
  [
    'file-format',
    'a format not allowed',
    { allow: ['jpeg', 'tiff'] },
    { format: 'webp' },
    { from: 'original', formats: ['jpeg', 'tiff'] },
  ],
  ['file-format', 'a PNG called .jpg', {}, { format: 'png' }, { from: 'file', formats: ['jpeg'] }],
  [
    'file-format',
    'HEIC',
    { allow: ['jpeg'] },
    fault('format', 'heic'),
    { from: 'original', formats: ['jpeg'] },
  ],
  ['file-format', 'a text', {}, fault('not-a-picture', 'text'), null],
  [
    'file-format',
    'an archive behind the picture',
    {},
    { others: [{ what: 'zip', count: 1, bytes: 9 }] },
    { from: 'file', leaveOut: ['other-content'] },
  ],
  ['intact', 'truncated', true, fault('truncated'), { from: 'original' }],
  ['intact', 'a Git LFS pointer', true, fault('lfs-pointer'), null],
  [
    'file-size',
    'too many bytes',
    { max: '1 MB' },
    { bytes: 1_000_001 },
    { from: 'original', bytes: { min: 0, max: 1_000_000 } },
  ],
  [
    'pixel-size',
    'too large',
    { width: 1200, 'long-edge': { max: 2000 } },
    {},
    { from: 'file', pixels: { width: { min: 1200, max: 1200 }, longEdge: { max: 2000 } } },
  ],
  [
    'pixel-size',
    'too small',
    { width: 2401 },
    {},
    { from: 'original', pixels: { width: { min: 2401, max: 2401 } } },
  ],
  ['pixel-size', 'too long on one edge, which a crop decides', { width: 2400, height: 2999 }, {}, null],
  ['resolution', 'another tag', { ppi: 300 }, { ppi: 72 }, { from: 'file', ppi: 300 }],
  ['resolution', 'no tag', { ppi: 300 }, { ppi: null }, { from: 'file', ppi: 300 }],
  [
    'color-space',
    'another RGB',
    'sRGB',
    color('rgb', 'Adobe RGB (1998)'),
    { from: 'file', colorSpace: 'sRGB' },
  ],
  ['color-space', 'CMYK', 'sRGB', color('cmyk', 'other'), { from: 'original', colorSpace: 'sRGB' }],
  [
    'color-space',
    'no profile, so nobody knows',
    'sRGB',
    color('rgb', 'none'),
    { from: 'original', colorSpace: 'sRGB' },
  ],
  ['bit-depth', 'more', 8, { bitsPerChannel: 16 }, { from: 'file', bitsPerChannel: 8 }],
  ['bit-depth', 'less', 16, {}, { from: 'original', bitsPerChannel: 16 }],
  [
    'compression',
    'the order of scans alone',
    { progressive: false, subsampling: '4:4:4' },
    jpeg({ progressive: true }),
    { from: 'file', progressive: false },
  ],
  [
    'compression',
    'lost detail',
    { quality: { min: 90 }, subsampling: ['4:4:4', '4:2:2'], progressive: false },
    jpeg({ quality: 60, subsampling: '4:2:0' }),
    { from: 'original', quality: { min: 90 }, subsampling: ['4:4:4', '4:2:2'] },
  ],
  ['orientation', 'on its side', 'upright', { orientationTag: 6 }, { from: 'file', upright: true }],
  [
    'metadata-required',
    'an empty field and a wrong text',
    { credit: true, copyright: 'Osprey Lane', 'alt-text': '{given} {family}' },
    metadata({ copyright: '© 2020 Somebody', altText: null }),
    { from: 'file', fillIn: { copyright: ['Osprey Lane'], credit: [], 'alt-text': ['Nkem Abara'] } },
  ],
  [
    'metadata-forbidden',
    'coordinates',
    ['location', 'rating'],
    metadata({ places: [{ ...place, where: [...place.where] }] }),
    { from: 'file', leaveOut: ['coordinates'] },
  ],
  [
    'stale-preview',
    'another picture, and a wrong size',
    true,
    metadata({
      previews: [preview],
      statedSizes: [{ where: 'EXIF', widthPx: 9, heightPx: 9, stale: true }],
    }),
    { from: 'file', leaveOut: ['preview', 'stated-sizes'] },
  ],
  ['headroom', 'a crop', { min: 20 }, {}, null],
  ['background-lightness', 'light', { max: 50 }, {}, null],
]

describe('how a file is to be saved again', () => {
  const ajv = new Ajv({ strict: true, allowUnionTypes: true })
  const fits = ajv.compile(ExportSettings)

  test.each(CASES)('%s: %s', (id, _, options, changes, settings) => {
    const rule = RULES.find((one) => one.id === id)
    const finding = rule?.judge({ measured: { ...GOOD, ...changes }, name: GOOD_NAME }, options)
    expect(finding?.verdict).toMatch(/^(fail|unsure)$/)
    expect(finding?.export ?? null).toEqual(settings)
    expect(settings === null || fits(settings)).toBe(true)
    expect(JSON.parse(JSON.stringify(finding))).toEqual(finding)
  })

  test('a portrait that meets everything is not to be saved again', () => {
    const findings = CASES.map(([id, , options]) =>
      RULES.find((one) => one.id === id)?.judge({ measured: GOOD, name: GOOD_NAME }, options),
    )
    const passes = findings.filter((finding) => finding?.verdict === 'pass')
    expect(passes.length).toBeGreaterThan(10)
    expect(passes.filter((finding) => finding && 'export' in finding)).toEqual([])
  })
})
