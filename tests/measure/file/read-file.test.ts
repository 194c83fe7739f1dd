import { createHash } from 'node:crypto'
import { Value } from '@sinclair/typebox/value'
import { describe, expect, test } from 'vitest'
import { LIMITS, measureFile, type ReadOptions, readHashed } from '../../../src/measure/file/read-file.ts'
import { FileMeasurements, MEASURER_VERSION } from '../../../src/measure/schema/measurements.ts'
import { plain, temporaryFile } from '../samples.ts'

/** Measures a file of this content; whatever comes out must fit the published schema. */
async function measured(name: string, content: Buffer | string, options: ReadOptions = { decode: true }) {
  const result = await measureFile(
    `web/${name}`,
    await readHashed(temporaryFile(name, content), options.limits?.bytes),
    options,
  )
  expect([...Value.Errors(FileMeasurements, result.measurements)]).toEqual([])
  return result
}

const NOTHING = {
  sha256: null,
  format: null,
  widthPx: null,
  heightPx: null,
  orientationTag: null,
  ppi: null,
  bitsPerChannel: null,
  channels: null,
  hasAlpha: null,
  color: null,
  jpeg: null,
  peakChromaC: null,
  others: null,
  intact: null,
}

test('a delivered portrait: everything of header and bytes', async () => {
  const content = await plain([230, 230, 230], 80, 100)
    .withIccProfile('srgb')
    .withMetadata({ density: 300, orientation: 1 })
    .jpeg({ quality: 92, chromaSubsampling: '4:4:4' })
    .toBuffer()
  const { measurements, pixels } = await measured('a.jpg', content)
  expect(measurements).toEqual({
    measurer: MEASURER_VERSION,
    file: 'web/a.jpg',
    bytes: content.length,
    sha256: createHash('sha256').update(content).digest('hex'),
    format: 'jpeg',
    fault: null,
    widthPx: 80,
    heightPx: 100,
    orientationTag: 1,
    ppi: 300,
    bitsPerChannel: 8,
    channels: 3,
    hasAlpha: false,
    color: { space: 'rgb', profile: 'sRGB', profileName: 'sRGB' },
    jpeg: { quality: 92, tables: 'ijg', subsampling: '4:4:4', progressive: false },
    // Gray: a matrix profile's rounding, at most.
    peakChromaC: expect.closeTo(0, 1),
    others: [],
    intact: true,
  })
  expect(pixels).toMatchObject({ width: 80, height: 100, transparentShare: 0 })
})

test('without decoding there are no pixels, and whether it is intact is not known', async () => {
  const { measurements, pixels } = await measured('a.jpg', await plain([1, 2, 3]).jpeg().toBuffer(), {
    decode: false,
  })
  expect(pixels).toBeNull()
  expect(measurements).toMatchObject({ fault: null, intact: null, widthPx: 32, heightPx: 24 })
})

test('the hash of the content, by the test vector of FIPS 180-4', async () => {
  const { measurements } = await measured('a.jpg', 'abc')
  expect(measurements.sha256).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad')
})

test('the format by the content, not by the name', async () => {
  const png = await plain([1, 2, 3]).png().toBuffer()
  expect((await measured('a.jpg', png)).measurements).toMatchObject({
    format: 'png',
    fault: null,
    jpeg: null,
  })
})

describe('files that are no pictures to decode, all named .jpg', () => {
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" width="60" height="60"><rect width="60" height="60"/></svg>'
  const heic = Buffer.from('\0\0\0\x18ftypheic\0\0\0\0mif1heic', 'latin1')
  const pointer = `version https://git-lfs.github.com/spec/v1\noid sha256:${'0'.repeat(64)}\nsize 1800000\n`

  test.each([
    ['a Git LFS pointer', pointer, 'lfs-pointer', null],
    ['text', 'Portraits follow on Monday.', 'not-a-picture', null],
    ['an SVG, which the decoder would gladly draw', svg, 'format', 'svg'],
    ['HEIC', heic, 'format', 'heic'],
    ['PDF', '%PDF-1.7', 'format', 'pdf'],
    ['the first bytes of a JPEG', Buffer.from([0xff, 0xd8, 0xff]), 'truncated', 'jpeg'],
  ] as const)('%s', async (_, content, kind, format) => {
    const { measurements, pixels } = await measured('a.jpg', content)
    expect(pixels).toBeNull()
    expect(measurements).toEqual({
      ...NOTHING,
      measurer: MEASURER_VERSION,
      file: 'web/a.jpg',
      bytes: Buffer.byteLength(content),
      sha256: createHash('sha256').update(content).digest('hex'),
      format,
      fault: { kind, detail: kind === 'truncated' ? expect.any(String) : '' },
      intact: kind === 'truncated' ? false : null,
    })
  })

  test('an empty file', async () => {
    const { measurements } = await measured('a.jpg', '')
    const fault = { kind: 'empty', detail: '' }
    expect(measurements).toEqual({
      ...NOTHING,
      measurer: MEASURER_VERSION,
      file: 'web/a.jpg',
      bytes: 0,
      fault,
    })
  })

  test('a missing file', async () => {
    const { measurements } = await measureFile('a.jpg', await readHashed('/nowhere/a.jpg'), { decode: true })
    const fault = { kind: 'unreadable', detail: 'ENOENT: no such file or directory' }
    expect(measurements).toEqual({ ...NOTHING, measurer: MEASURER_VERSION, file: 'a.jpg', bytes: 0, fault })
  })

  test('more bytes than the limit', async () => {
    const options = { decode: true, limits: { ...LIMITS, bytes: 10 } }
    const { measurements } = await measured('a.jpg', 'x'.repeat(11), options)
    expect(measurements).toMatchObject({
      bytes: 11,
      sha256: null,
      fault: { kind: 'too-large', detail: '11 bytes; the limit is 10' },
    })
  })
})
