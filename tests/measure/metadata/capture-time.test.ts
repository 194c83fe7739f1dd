import { describe, expect, test } from 'vitest'
import { captureTime } from '../../../src/measure/metadata/capture-time.ts'
import { ascii } from '../file/exif/exif-writer.ts'
import { type BlocksRecipe, blocks } from './blocks/blocks-writer.ts'

const exif = (time: string, fraction?: string, zone?: string): BlocksRecipe => ({
  exif: {
    exif: [
      ascii(0x9003, time),
      ...(fraction === undefined ? [] : [ascii(0x9291, fraction)]),
      ...(zone === undefined ? [] : [ascii(0x9011, zone)]),
    ],
  },
})
const xmp = (time: string): BlocksRecipe => ({
  xmp: `<photoshop:DateCreated>${time}</photoshop:DateCreated>`,
})
const iim = (date: string, time?: string): BlocksRecipe => ({
  iim: [[2, 55, date], ...(time === undefined ? [] : [[2, 60, time] as const])],
})

describe('one place', () => {
  test.each([
    ['Exif', exif('2026:03:05 10:21:35'), '2026-03-05T10:21:35'],
    [
      'Exif with fraction and zone',
      exif('2026:03:05 10:21:35', '12', '+02:00'),
      '2026-03-05T10:21:35.12+02:00',
    ],
    ['Exif with hyphens, as some programs write', exif('2026-03-05 10:21:35'), '2026-03-05T10:21:35'],
    ['a fraction that is none', exif('2026:03:05 10:21:35', 'xx', 'home'), '2026-03-05T10:21:35'],
    ['XMP', xmp('2026-03-05T10:21:35.5Z'), '2026-03-05T10:21:35.5Z'],
    ['XMP, minutes', xmp('2026-03-05T10:21'), '2026-03-05T10:21'],
    ['XMP, a day', xmp('2026-03-05'), '2026-03-05'],
    ['XMP, a year', xmp('2026'), '2026'],
    ['IIM', iim('20260305', '102135+0200'), '2026-03-05T10:21:35+02:00'],
    ['IIM without a zone', iim('20260305', '102135'), '2026-03-05T10:21:35'],
    ['IIM, a day', iim('20260305'), '2026-03-05'],
    ['a leap second', exif('2016:12:31 23:59:60'), '2016-12-31T23:59:60'],
    ['a leap day', exif('2024:02:29 00:00:00'), '2024-02-29T00:00:00'],
  ])('%s', (_, recipe, time) => expect(captureTime(blocks(recipe))).toBe(time))
})

describe('no time', () => {
  test.each([
    ['zeros, as cameras write for unknown', exif('0000:00:00 00:00:00')],
    ['blanks', exif('    :  :     :  :  ')],
    ['a month 13', exif('2026:13:05 10:21:35')],
    ['a 30th of February', exif('2026:02:30 10:21:35')],
    ['a 29th of February of no leap year', exif('2026:02:29 10:21:35')],
    ['hour 25', exif('2026:03:05 25:21:35')],
    ['second 61', exif('2026:03:05 10:21:61')],
    ['words', xmp('yesterday')],
    ['nothing', {}],
  ])('%s', (_, recipe) => expect(captureTime(blocks(recipe))).toBeNull())
})

// MWG Guidelines 2.0, chapter 5: Exif, then XMP, then IIM.
describe('several places', () => {
  test('Exif goes first', () => {
    expect(captureTime(blocks({ ...exif('2026:03:05 10:21:35'), ...xmp('2020-01-01T00:00:00') }))).toBe(
      '2026-03-05T10:21:35',
    )
  })
  test('what Exif leaves out of the same second comes from XMP', () => {
    expect(
      captureTime(blocks({ ...exif('2026:03:05 10:21:35'), ...xmp('2026-03-05T10:21:35.12+02:00') })),
    ).toBe('2026-03-05T10:21:35.12+02:00')
  })
  test('an impossible one is passed over', () => {
    expect(captureTime(blocks({ ...exif('0000:00:00 00:00:00'), ...iim('20260305') }))).toBe('2026-03-05')
  })
})
