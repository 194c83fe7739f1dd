import { mkdtemp, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { sniff } from '../../../src/measure/file/container/sniff.ts'
import { measure } from '../../../src/measure/measure.ts'
import { DECODABLE, type Decodable } from '../../../src/measure/schema/formats.ts'
import { jpegWith } from '../../../src/prepare/containers/jpeg.ts'
import { encodedAt } from '../../../src/prepare/encode/encoded-at.ts'
import { USUAL } from '../../../src/prepare/encode/manners.ts'
import type { Labels } from '../../../src/prepare/metadata/labels.ts'
import { makeBlocks } from '../../../src/prepare/metadata/make-blocks.ts'
import type { Finished } from '../../../src/prepare/pixels/resample.ts'
import { exifrFields } from '../../outside/exifr.ts'
import { startedExiftool } from '../../outside/exiftool.ts'

const exiftool = startedExiftool()
const FOLDER = mkdtemp(join(tmpdir(), 'blocks-'))

const LABELS: Labels = {
  fields: {
    creator: ['Zoë Ågren & Söhne', 'Noor <Photo>'],
    copyright: ['© 2026 Osprey Lane Veterinary Group'],
    credit: ['Osprey Lane'],
    source: ['Studio Kestrel'],
    title: ['Staff'],
    headline: ['A veterinary nurse'],
    description: ['She stands before a white wall — 100 % "sharp".'],
    'alt-text': ['Portrait of Folasade Adeyemi'],
    'extended-description': ['Folasade Adeyemi, in a green coat, looks into the camera.'],
    'person-shown': ['Folasade Adeyemi'],
    keywords: ['staff', 'portrait'],
    'capture-time': ['2026-03-09T10:11:12.34+02:00'],
    'usage-terms': ['For the website only'],
    'web-statement': ['https://example.org/rights'],
  },
  frameName: 'IMG_0418.CR3',
  colorSpace: 'sRGB',
  ppi: 300,
}

const PICTURE: Finished = {
  ...{ widthPx: 31, heightPx: 23, channels: 3, outOfGamut: 0 },
  codes: Uint8Array.from({ length: 31 * 23 * 3 }, (_, n) => (n * 7) % 256),
}

async function made(format: Decodable): Promise<{ path: string; bytes: Buffer }> {
  const encoding = { format, subsampling: '4:4:4', progressive: false, tiff: 'lzw' } as const
  const bytes = await encodedAt(PICTURE, encoding, makeBlocks(LABELS), 95, USUAL)
  const path = join(await FOLDER, `made.${format}`)
  await writeFile(path, bytes)
  return { path, bytes }
}

describe.each(DECODABLE)('%s', (format) => {
  test('its metadata, read back, are what was to be written, and all places agree', async () => {
    const { path, bytes } = await made(format)
    expect(sniff(bytes)).toBe(format)
    const measured = await measure({ path, file: `made.${format}` }, ['file', 'metadata', 'decode'])
    expect(measured).toMatchObject({ fault: null, widthPx: 31, heightPx: 23, others: [] })
    // AVIF says so in a box of its own.
    expect(measured.orientationTag).toBe(format === 'avif' ? null : 1)
    expect(measured.color).toMatchObject({ profile: 'sRGB', space: 'rgb' })
    const { fields } = LABELS
    expect(measured.metadata).toMatchObject({
      creator: fields.creator,
      copyright: fields.copyright?.[0],
      credit: fields.credit?.[0],
      source: fields.source?.[0],
      title: fields.title?.[0],
      headline: fields.headline?.[0],
      description: fields.description?.[0],
      altText: fields['alt-text']?.[0],
      extendedDescription: fields['extended-description']?.[0],
      personShown: fields['person-shown'],
      keywords: fields.keywords,
      captureTime: fields['capture-time']?.[0],
      usageTerms: fields['usage-terms']?.[0],
      webStatement: fields['web-statement']?.[0],
      ...{ conflicts: [], unreadable: [], opaque: [], previews: [], gps: false },
      origin: { preservedFileName: 'IMG_0418.CR3' },
    })
  })

  test('the picture library reads profile and pixels', async () => {
    const { bytes } = await made(format)
    const { icc, width } = await sharp(bytes).metadata()
    expect(icc?.equals(makeBlocks(LABELS).icc)).toBe(true)
    expect(width).toBe(31)
  })

  test.skipIf(!exiftool)('ExifTool reads the same, and finds nothing wrong', async () => {
    const { path } = await made(format)
    const [read = {}] = JSON.parse((await exiftool?.('-j', '-a', '-G1', '-struct', path)) ?? '[]')
    expect(read).toMatchObject({
      'XMP-dc:Creator': LABELS.fields.creator,
      'XMP-dc:Rights': LABELS.fields.copyright?.[0],
      'XMP-dc:Description': LABELS.fields.description?.[0],
      'XMP-dc:Title': 'Staff',
      'XMP-dc:Subject': ['staff', 'portrait'],
      'XMP-photoshop:Headline': 'A veterinary nurse',
      'XMP-photoshop:Credit': 'Osprey Lane',
      'XMP-photoshop:Source': 'Studio Kestrel',
      'XMP-xmpRights:UsageTerms': 'For the website only',
      'XMP-xmpRights:WebStatement': 'https://example.org/rights',
      'XMP-iptcCore:AltTextAccessibility': LABELS.fields['alt-text']?.[0],
      'XMP-iptcCore:ExtDescrAccessibility': LABELS.fields['extended-description']?.[0],
      'XMP-iptcExt:PersonInImage': ['Folasade Adeyemi'],
      'XMP-xmpMM:PreservedFileName': 'IMG_0418.CR3',
      'IFD0:Artist': 'Zoë Ågren & Söhne; Noor <Photo>',
      'IFD0:Copyright': LABELS.fields.copyright?.[0],
      'IFD0:ImageDescription': LABELS.fields.description?.[0],
      'ExifIFD:DateTimeOriginal': '2026:03:09 10:11:12',
      'ExifIFD:OffsetTimeOriginal': '+02:00',
    })
    expect(Object.keys(read).filter((key) => /Warning|Error/.test(key))).toEqual([])
  })
})

// The other formats it does not read, or not beyond their profile.
test.each(['jpeg', 'png', 'tiff'] as const)('%s: exifr reads every text', async (format) => {
  const { bytes } = await made(format)
  const read = [...(await exifrFields(bytes)).values()]
  const { 'capture-time': _, ...texts } = LABELS.fields
  const missing = Object.values(texts)
    .flat()
    .filter(
      (text) =>
        !read.some(
          (one) =>
            one.includes(text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')) ||
            one.includes(text),
        ),
    )
  expect(missing).toEqual([])
  expect(read).toContain('2026:03:09 10:11:12')
})

test.skipIf(!exiftool).each(['jpeg', 'tiff'] as const)(
  '%s: IPTC-IIM in step with XMP, with its digest',
  async (format) => {
    const { path } = await made(format)
    const [read = {}] = JSON.parse((await exiftool?.('-j', '-a', '-G1', path)) ?? '[]')
    expect(read).toMatchObject({
      'IPTC:CodedCharacterSet': 'UTF8',
      'IPTC:By-line': ['Zoë Ågren & Söhne', 'Noor <Photo>'],
      'IPTC:CopyrightNotice': LABELS.fields.copyright?.[0],
      'IPTC:Caption-Abstract': LABELS.fields.description?.[0],
      'IPTC:Headline': 'A veterinary nurse',
      'IPTC:DateCreated': '2026:03:09',
      'IPTC:TimeCreated': '10:11:12+02:00',
    })
    const digest = format === 'jpeg' ? read['Photoshop:IPTCDigest'] : read['File:CurrentIPTCDigest']
    expect(read['File:CurrentIPTCDigest']).toBe(digest)
  },
)

test('a second set of blocks takes the place of the first in a JPEG, whose picture stays as it is', async () => {
  const { bytes } = await made('jpeg')
  const other = { ...LABELS, fields: { creator: ['Somebody else'] }, frameName: null }
  const padded = Buffer.concat([bytes, Buffer.from('Adeyemi: a note after the end')])
  const changed = jpegWith(padded, makeBlocks(other))
  expect(changed.includes('Adeyemi')).toBe(false)
  const [before, after] = await Promise.all([bytes, changed].map((one) => sharp(one).raw().toBuffer()))
  expect(after?.equals(before ?? Buffer.alloc(0))).toBe(true)
})
