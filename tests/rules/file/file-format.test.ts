import { describe, expect, test } from 'vitest'
import type { Measurements } from '../../../src/measure/schema/measurements.ts'
import { fileFormat } from '../../../src/rules/file/file-format.ts'
import { GOOD, GOOD_NAME, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const jpegOnly = { allow: ['jpeg'] }
const fault = (kind: 'format' | 'not-a-picture', format: string | null) => ({
  ...UNREAD,
  fault: { kind, detail: '' },
  format,
})

testCases(fileFormat, [
  {
    what: 'allowed',
    options: jpegOnly,
    verdict: 'pass',
    says: ['The file is JPEG; the spec asks for JPEG.'],
    found: 'JPEG',
    asked: 'JPEG',
  },
  {
    what: 'all formats unless told',
    options: {},
    measured: { format: 'avif', file: 'a.avif' },
    verdict: 'pass',
    says: ['JPEG, PNG, TIFF, WebP or AVIF'],
  },
  {
    what: 'not allowed',
    options: { allow: ['jpeg', 'tiff'] },
    measured: { format: 'png', file: 'a.png' },
    verdict: 'fail',
    says: [
      'The file is PNG; the spec asks for JPEG or TIFF.',
      'Export again from the original as JPEG or TIFF.',
    ],
  },
  ...(
    [
      ['jpeg', 'a.jpg'],
      ['jpeg', 'a.JPEG'],
      ['jpeg', 'a.jfif'],
      ['png', 'x.y/a.b.PNG'],
      ['tiff', 'a.tif'],
      ['tiff', 'a.tiff'],
      ['webp', 'a.webp'],
    ] as const
  ).map(([format, file]) => ({
    what: `${file} holds ${format}`,
    options: {},
    measured: { format, file },
    verdict: 'pass' as const,
  })),
  {
    what: 'a PNG called .jpg',
    options: {},
    measured: { format: 'png' },
    verdict: 'fail',
    found: 'PNG, ".jpg"',
    says: [
      'The content is PNG, but the file has the extension ".jpg"; it should be .png.',
      'Export it again as JPEG, as its name says.',
    ],
  },
  {
    what: 'a PNG called .jpg, where no pattern asks for that',
    options: {},
    measured: { format: 'png' },
    name: { pattern: null },
    verdict: 'fail',
    says: ['Rename it to end in .png.'],
  },
  {
    what: 'a PNG called .jpg, where the pattern takes both',
    options: {},
    measured: { format: 'png' },
    rename: { from: GOOD_NAME.path, to: 'print/Abara-Nkem_00123.png' },
    verdict: 'fail',
    says: ['Rename it to "print/Abara-Nkem_00123.png".'],
  },
  {
    what: 'a JPEG called .tif, where both are allowed',
    options: { allow: ['jpeg', 'tiff'] },
    measured: { file: 'a.tif' },
    verdict: 'fail',
    says: ['should be .jpg'],
  },
  {
    what: 'no extension',
    options: {},
    measured: { file: 'print.d/portrait' },
    verdict: 'fail',
    says: ['the file has no extension', 'end in .jpg'],
    found: 'JPEG, no extension',
  },
  {
    what: 'a dot at the end',
    options: {},
    measured: { file: 'portrait.' },
    verdict: 'fail',
    says: ['no extension'],
  },
  { what: 'a hidden name', options: {}, measured: { file: '.jpg' }, verdict: 'fail', says: ['no extension'] },
  {
    what: 'HEIC',
    options: {},
    measured: fault('format', 'heic'),
    verdict: 'fail',
    says: ['HEIC, which portrait-gate does not decode', 'Ask for JPEG, PNG, TIFF, WebP or AVIF.'],
  },
  {
    what: 'an SVG called .jpg',
    options: {},
    measured: fault('format', 'svg'),
    verdict: 'fail',
    says: ['The content is SVG, a drawing or a document', 'Deliver the photograph itself'],
  },
  {
    what: 'camera raw',
    options: jpegOnly,
    measured: fault('format', 'raw'),
    verdict: 'fail',
    says: ['camera raw, which portrait-gate does not read', 'as JPEG.'],
  },
  {
    what: 'another known format',
    options: {},
    measured: fault('format', 'gif'),
    verdict: 'fail',
    says: ['GIF, which portrait-gate does not read'],
  },
  {
    what: 'a format without a name',
    options: {},
    measured: fault('format', null),
    verdict: 'fail',
    says: ['in a format that portrait-gate does not read'],
  },
  { what: 'an unread format without a fault', options: {}, measured: { format: 'gif' }, verdict: 'fail' },
  { what: 'a word of the language', options: {}, measured: fault('format', 'constructor'), verdict: 'fail' },
  {
    what: 'text called .jpg',
    options: {},
    measured: fault('not-a-picture', null),
    verdict: 'fail',
    says: ['The content is not a picture', 'remove this file from the delivery'],
  },
  {
    what: 'a cut-off JPEG is JPEG still',
    options: {},
    measured: UNREAD,
    verdict: 'pass',
  },
  {
    what: 'an empty file',
    options: {},
    measured: { ...UNREAD, format: null, fault: { kind: 'empty', detail: '' } },
    verdict: 'skip',
    says: ['no content to read a format from'],
  },
  { what: 'no format told', options: {}, measured: { format: null }, verdict: 'unsure' },
])

testRefused(fileFormat, [
  ['an unknown format', { allow: ['heic'] }],
  ['none at all', { allow: [] }],
  ['a format twice', { allow: ['jpeg', 'jpeg'] }],
])

describe('a file that holds more than the picture that was measured never passes', () => {
  const judged = (others: NonNullable<Measurements['others']>, file = 'a.jpg') =>
    fileFormat.judge({ measured: { ...GOOD, file, others }, name: GOOD_NAME }, {})

  test.each([
    [[{ what: 'jpeg', count: 1, bytes: 4711 }], 'JPEG and another picture (JPEG, 4711 bytes)'],
    [[{ what: 'zip', count: 1, bytes: null }], 'JPEG and an archive (ZIP)'],
    [[{ what: 'movie', count: 1, bytes: 9 }], 'JPEG and a film (9 bytes)'],
    [[{ what: 'page', count: 2, bytes: null }], 'JPEG and 2 further pages'],
    [[{ what: 'item', count: 1, bytes: null }], 'JPEG and 1 further picture'],
  ])('%j', (others, measured) => {
    expect(judged(others)).toMatchObject({ verdict: 'unsure', measured })
  })

  test('with its sentence and what to do', () => {
    expect(judged([{ what: 'jpeg', count: 1, bytes: 4711 }])).toMatchObject({
      reason: expect.stringMatching(
        /The file also holds another picture \(JPEG, 4711 bytes\), which was not judged; check it by eye\.$/,
      ),
      fix: 'Export again, so that the file holds one picture and nothing else.',
    })
  })

  test('and a wrong extension still fails', () => {
    const finding = judged([{ what: 'zip', count: 1, bytes: null }], 'a.png')
    expect(finding.verdict).toBe('fail')
    expect(finding.reason).toContain('an archive (ZIP)')
  })
})
