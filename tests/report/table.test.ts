import { stripVTControlCharacters } from 'node:util'
import stringWidth from 'string-width'
import { describe, expect, test } from 'vitest'
import { summedUp } from '../../src/judge/report.ts'
import { table } from '../../src/report/table.ts'
import { type Delivered, reportOn, reportOnAlike, SPEC } from '../judge/sample.ts'
import { face, head, UNREAD } from '../rules/judging/cases.ts'

const DELIVERED: Delivered[] = [
  { file: 'print/Okafor-Ada_00124.jpg' },
  { file: 'print/Abara-Nkem_00123.jpg' },
  {
    file: 'print/Lindqvist-Åsa_00125.jpg',
    measured: {
      ...head({ headroomPct: 4.1 }),
      ...face({ tiltDeg: 4.1 }),
      color: { space: 'rgb', profile: 'Adobe RGB (1998)', profileName: 'sRGB IEC61966-2.1' },
    },
  },
  { file: 'print/Moreau-Luc_00126.jpg', measured: { ...UNREAD, fault: { kind: 'truncated', detail: '' } } },
  {
    file: 'web/Sato-Rin_00127.jpg',
    name: { deliverable: 'web' },
    measured: {
      widthPx: 800,
      heightPx: 800,
      ...head({ confidence: 0.4, doubts: ['crown-merges-with-backdrop'] }),
    },
  },
  { file: 'print/Haddad-Omar_00128.jpg', measured: face({ tiltDeg: -2.6 }) },
]
const REPORT = reportOn(DELIVERED, SPEC, { left: { hidden: 1, sidecars: 2, links: 0, other: 1 } })

test('at 80 columns', () => {
  expect(table(REPORT, { columns: 80, color: false })).toMatchInlineSnapshot(`
    "FAIL    6 portraits: 3 pass, 2 fail, 1 unsure; 2 warnings.
    Osprey Lane Veterinary Group, brand spec version 1 (brand.yaml)
    Not checked: 1 hidden file, 2 documents or sidecars and 1 other file.

    Rules missed, by number of portraits
      tilt         2 of 5  Warns only.
      headroom     2 of 5  1 unsure.
      intact       1 of 6
      color-space  1 of 5

    2 of 6 portraits need work

      print/Moreau-Luc_00126.jpg
        fail    intact       The file is truncated: the picture ends before its last
                             row; the spec asks for a complete picture.
                             Fix: The copy or upload did not finish. Export or copy
                             it again from the original.

      print/Lindqvist-Åsa_00125.jpg
        fail    color-space  The color space is Adobe RGB (1998); the spec asks for
                             sRGB. The profile is named "sRGB IEC61966-2.1", but its
                             content is Adobe RGB (1998).
                             Fix: Convert the picture to sRGB and embed that
                             profile; don't just assign it.
        fail    headroom     Headroom is 4.1 % of the frame height; the spec asks
                             for 6 to 12 %.
                             Fix: Level the head first (see tilt) and check again,
                             since rotating changes the crop; as it is now, go back
                             to the uncropped frame and take 2400 x 3000 px starting
                             66 px above the top left corner of this file. This file
                             lacks 66 px above the head; the backdrop could be
                             extended there instead.
        warn    tilt         The eye line is tilted 4.1° clockwise; the spec asks
                             for at most 2° either way.
                             Fix: Rotate the picture counterclockwise by at least
                             2.1°, then crop again.

    1 of 6 portraits is unsure: check by eye

      web/Sato-Rin_00127.jpg
        unsure  headroom  Headroom could not be measured with confidence: loose
                          hair, or hair much like the backdrop, leaves the top of
                          the head unclear. The spec asks for 4 to 10 %; check by
                          eye.

    1 of 6 portraits passes with warnings

      print/Haddad-Omar_00128.jpg
        warn    tilt  The eye line is tilted 2.6° counterclockwise; the spec asks
                      for at most 2° either way.
                      Fix: Rotate the picture clockwise by at least 0.6°, then crop
                      again.

    FAIL    6 portraits: 3 pass, 2 fail, 1 unsure; 2 warnings.
    "
  `)
})

describe('the same at other widths', () => {
  const short = reportOn([{ file: 'print/Haddad-Omar_00128.jpg', measured: face({ tiltDeg: -2.6 }) }], SPEC)

  test('at 140 columns the fix stands beside the reason', () => {
    expect(table(short, { columns: 140, color: false })).toMatchInlineSnapshot(`
      "PASS    1 portrait: 1 pass, 0 fail, 0 unsure; 1 warning.
      Osprey Lane Veterinary Group, brand spec version 1 (brand.yaml)

      1 of 1 portrait passes with warnings

        print/Haddad-Omar_00128.jpg
          warn    tilt  The eye line is tilted 2.6° counterclockwise; the spec asks   Fix: Rotate the picture clockwise by at least 0.6°, then
                        for at most 2° either way.                                    crop again.
      "
    `)
  })

  test('at 50 columns the rule stands on a line of its own', () => {
    expect(table(short, { columns: 50, color: false })).toMatchInlineSnapshot(`
      "PASS    1 portrait: 1 pass, 0 fail, 0 unsure;
              1 warning.
      Osprey Lane Veterinary Group, brand spec version 1
      (brand.yaml)

      1 of 1 portrait passes with warnings

        print/Haddad-Omar_00128.jpg
          warn    tilt
            The eye line is tilted 2.6°
            counterclockwise; the spec asks for at most
            2° either way. Fix: Rotate the picture
            clockwise by at least 0.6°, then crop again.
      "
    `)
  })
})

test('nothing but passes', () => {
  expect(
    table(reportOn([{ file: 'a.jpg' }, { file: 'b.jpg' }]), { columns: 80, color: false }),
  ).toMatchInlineSnapshot(`
    "PASS    2 portraits: 2 pass, 0 fail, 0 unsure; 0 warnings.
    Osprey Lane Veterinary Group, brand spec version 1 (brand.yaml)
    "
  `)
})

test('the fix stands beside the reason from 120 columns on', () => {
  const fixBeside = (columns: number) => /12 %\..*Fix|;.*Fix/.test(table(REPORT, { columns, color: false }))
  expect(fixBeside(119)).toBe(false)
  expect(fixBeside(120)).toBe(true)
})

test('nothing judged is no pass', () => {
  expect(table(reportOn([]), { columns: 80, color: false })).toMatchInlineSnapshot(`
    "UNSURE  0 portraits: 0 pass, 0 fail, 0 unsure; 0 warnings.
    Osprey Lane Veterinary Group, brand spec version 1 (brand.yaml)
    "
  `)
})

test('strict says why the run fails', () => {
  const unsure = [{ file: 'a.jpg', measured: head({ confidence: 0.1 }) }]
  expect(table(reportOn(unsure, SPEC, { strict: true }), { columns: 140, color: false })).toContain(
    'UNSURE  1 portrait: 0 pass, 0 fail, 1 unsure, which fails a strict run; 0 warnings.',
  )
})

test('a file on which nothing could be judged says so', () => {
  const report = reportOn([{ file: 'a.jpg' }])
  const files = report.files.map((file) => ({ ...file, verdict: 'unsure' as const, outcomes: [] }))
  const told = { ...report, ...summedUp(files, report.delivery), files }
  const text = table(told, { columns: 80, color: false })
  expect(text).toContain('a.jpg\n    No rule could be judged on this file.')
})

describe.each([20, 40, 79, 80, 119, 120, 140, 400])('at %d columns', (columns) => {
  const delivered = [
    ...DELIVERED,
    { file: `print/${'長い名前の肖像'.repeat(20)}.jpg`, measured: head({ headroomPct: 2 }) },
    { file: `print/${'x'.repeat(300)}.jpg`, measured: head({ headroomPct: 2 }) },
  ]
  const report = reportOn(delivered)

  test('no line is wider than the terminal, or than 40 columns where it is narrower', () => {
    for (const line of table(report, { columns, color: false }).split('\n'))
      expect(stringWidth(line)).toBeLessThanOrEqual(Math.max(40, columns))
  })

  test('colors change no character', () => {
    const painted = table(report, { columns, color: true })
    const plain = table(report, { columns, color: false })
    expect(plain).not.toContain('\u001b')
    expect(painted).toContain('\u001b[31m')
    expect(stripVTControlCharacters(painted)).toBe(plain)
  })
})

// ECMA-48: ESC [ ... m sets colors, ESC ] 8 makes links, 0x9B is the one-byte CSI. Unicode UAX #9: U+202E overrides
// the reading direction. UTF-8 terminals that honor them must not see them.
test('names and specs of strangers move nothing', () => {
  const hostile = 'a\u001b[2J\u009b31m\u202ejpg.\nfail\r\u0007\u2028b'
  const report = reportOn(
    [
      {
        file: hostile,
        measured: {
          ...head({ headroomPct: 2 }),
          color: { space: 'rgb', profile: 'other', profileName: hostile },
        },
      },
    ],
    { ...SPEC, brand: hostile, file: hostile },
  )
  const text = table(report, { columns: 140, color: false })
  expect(text).not.toMatch(/[^\P{C}\n]|[\u2028\u2029]/u)
  expect(text).toContain('a<U+001B>[2J<U+009B>31m<U+202E>jpg.<U+000A>fail<U+000D><U+0007><U+2028>b')
})

test.each([true, false])('two thousand failing portraits are laid out, all in full: %s', (all) => {
  const paths = Array.from({ length: 2000 }, (_, i) => `print/${i}.jpg`)
  const report = reportOnAlike(paths, head({ headroomPct: 2 }))
  expect(table(report, { columns: 140, color: true, all })).toContain('2000 of 2000 portraits need work')
})
