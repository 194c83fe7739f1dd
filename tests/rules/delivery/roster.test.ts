import { Ajv } from 'ajv'
import { describe, expect, test } from 'vitest'
import { roster } from '../../../src/rules/delivery/roster.ts'
import { COMPLETE, deliveryOf, linesOf, STAFF } from './delivery-cases.ts'

const judge = (...args: Parameters<typeof deliveryOf>) => linesOf(roster, deliveryOf(...args), 'staff.csv')
const without = (...gone: string[]) => COMPLETE.filter((path) => !gone.includes(path))

test('it takes a path, and runs unasked when there is a roster', () => {
  const fits = new Ajv().compile(roster.options)
  expect(fits('staff.csv')).toBe(true)
  expect(fits('')).toBe(false)
  expect(fits({})).toBe(false)
  const { roster: staff } = deliveryOf(COMPLETE)
  expect(roster.unasked({ deliverables: [], roster: staff, gallery: null })).toBe('staff.csv')
  expect(roster.unasked({ deliverables: [], roster: null, gallery: null })).toBeNull()
})

test('everyone is there', () => {
  expect(judge(COMPLETE)).toEqual([
    'pass  []: All 2 people expected are in the delivery, and nobody else; marked absent: "Pham Linh 17001".',
  ])
})

test('one file is enough not to be missing', () => {
  expect(judge(without('web/Lund-Bjørn_00990.jpg'))[0]).toMatch(/^pass/)
})

test('someone is missing', () => {
  expect(judge(without('web/Lund-Bjørn_00990.jpg', 'print/Lund-Bjørn_00990.jpg'))).toEqual([
    'fail Lund Bjørn 00990 []: "Lund Bjørn 00990" (line 2 of staff.csv) has no portrait in the delivery. Deliver the portraits, or give the reason in the absent column.',
  ])
})

test('someone is not on the roster', () => {
  const [line, ...more] = judge([...COMPLETE, 'print/Okoro-Emeka_16001.jpg', 'web/Okoro-Emeka_16001.jpg'])
  expect(line).toMatch(
    /^fail Okoro Emeka 16001 \[print\/Okoro-Emeka_16001.jpg, web\/.*2 portraits were delivered/,
  )
  expect(more).toEqual([])
})

test('a stranger who may be somebody missing is put to that person with a question mark, in one finding', () => {
  const others = without('web/Lund-Bjørn_00990.jpg', 'print/Lund-Bjørn_00990.jpg')
  expect(judge([...others, 'web/Lunde-Bjorn_00999.jpg'])).toEqual([
    'fail Lunde Bjorn 00999, Lund Bjørn 00990 [web/Lunde-Bjorn_00999.jpg]: "Lunde Bjorn 00999" is not on the roster, but a portrait was delivered. Is it "Lund Bjørn 00990" (line 2 of staff.csv), who has none? If so, rename the file after "Lund Bjørn 00990". If not, add the person to the roster and deliver "Lund Bjørn 00990".',
  ])
})

test('two strangers who may be the same are put to nobody', () => {
  const others = without('web/Lund-Bjørn_00990.jpg', 'print/Lund-Bjørn_00990.jpg')
  const lines = judge([...others, 'web/Lunde-Bjorn_00999.jpg', 'web/Lundt-Bjorn_00998.jpg'])
  expect(lines).toHaveLength(3)
  expect(lines.join()).not.toContain('Is it')
})

test('a version after the name is one finding', () => {
  const paths = [...without('web/Lund-Bjørn_00990.jpg'), 'web/Lund-Bjørn_final_00990.jpg']
  expect(judge(paths)).toEqual([
    expect.stringMatching(
      /^fail Lund Bjørn 00990 .*"Bjørn_final" is not on the roster with that ending; it most/,
    ),
  ])
})

test('someone marked absent is there after all', () => {
  expect(judge([...COMPLETE, 'print/Pham-Linh_17001.jpg'])).toEqual([
    expect.stringMatching(
      /^fail Pham Linh 17001 .*marked absent \("on leave", line 4 of staff.csv\), but a portrait/,
    ),
  ])
})

describe('someone with a last day', () => {
  const staff = (left: string, absent = '') =>
    `family,given,staff-id,absent,left\nLund,Bjørn,00990,${absent},${left}\nNair,Priya,15388,,\n`
  const files = ['print/Lund-Bjørn_00990.jpg', 'web/Lund-Bjørn_00990.jpg']
  const found = (today: string, paths: readonly string[] = COMPLETE, text = staff('2026-03-31')) =>
    roster.judge(deliveryOf(paths, text, { today }), 'staff.csv')

  test('that is over: the files are to be taken down', () => {
    expect(found('2026-04-01')).toEqual([
      {
        ...{ people: ['Lund Bjørn 00990'], files, verdict: 'fail', measured: 'left on 2026-03-31' },
        expected: 'the people on the roster',
        reason: '"Lund Bjørn 00990" left on 2026-03-31 (line 2 of staff.csv): take these files down.',
        fix: 'Delete "print/Lund-Bjørn_00990.jpg" and "web/Lund-Bjørn_00990.jpg", and take them off the pages where they are shown.',
      },
    ])
  })

  test.each(['2026-03-31', '2025-12-01'])('that is not over on %s: it is a warning', (today) => {
    expect(found(today)).toEqual([
      expect.objectContaining({
        ...{ files, verdict: 'fail', warns: true, measured: 'leaves on 2026-03-31' },
        reason: '"Lund Bjørn 00990" leaves on 2026-03-31 (line 2 of staff.csv): take these files down then.',
      }),
    ])
  })

  test('is missing until then, and not after', () => {
    const others = COMPLETE.filter((path) => !files.includes(path))
    expect(found('2026-03-31', others)[0]).toMatchObject({ verdict: 'fail', measured: 'missing' })
    expect(found('2026-04-01', others)).toEqual([
      expect.objectContaining({
        verdict: 'pass',
        measured: '1 person',
        reason: 'The one person expected is in the delivery, and nobody else; left: "Lund Bjørn 00990".',
      }),
    ])
  })

  test('and is marked absent: once gone, only that is told', () => {
    const both = staff('2026-03-31', 'on leave')
    expect(found('2026-04-01', COMPLETE, both).map(({ measured }) => measured)).toEqual([
      'left on 2026-03-31',
    ])
    expect(found('2026-03-01', COMPLETE, both).map(({ measured }) => measured)).toEqual([
      'leaves on 2026-03-31',
      'absent, but delivered',
    ])
  })

  test('and has a misspelled file: it is not renamed any more, but found', () => {
    const paths = [...COMPLETE.filter((path) => path !== files[0]), 'print/Lunt-Bjørn_00990.jpg']
    const [one, ...more] = found('2026-04-01', paths)
    expect(more).toEqual([])
    expect(one?.files).toContain('print/Lunt-Bjørn_00990.jpg')
  })

  test('is nobody whom a stranger may be, once gone', () => {
    const paths = [...COMPLETE.filter((path) => !files.includes(path)), 'web/Lunde-Bjorn_00999.jpg']
    const guess = (today: string) =>
      found(today, paths).some(({ measured }) => measured?.startsWith('perhaps'))
    expect(guess('2026-03-31')).toBe(true)
    expect(guess('2026-04-01')).toBe(false)
  })
})

describe('someone whose consent has an end', () => {
  const staff = (left = '') =>
    `family,given,staff-id,left,consent-until\nLund,Bjørn,00990,${left},2026-03-31\nNair,Priya,15388,,\n`
  const found = (today: string, paths: readonly string[] = COMPLETE, text = staff()) =>
    roster.judge(deliveryOf(paths, text, { today }), 'staff.csv')

  test('that is over: every file is to be taken down, and none is expected', () => {
    expect(found('2026-04-01')).toEqual([
      expect.objectContaining({
        ...{ files: ['print/Lund-Bjørn_00990.jpg', 'web/Lund-Bjørn_00990.jpg'], verdict: 'fail' },
        reason:
          '"Lund Bjørn 00990" agreed to be shown until 2026-03-31 (line 2 of staff.csv): take these files down.',
      }),
    ])
    expect(
      found(
        '2026-04-01',
        COMPLETE.filter((path) => !path.includes('Lund')),
      )[0],
    ).toMatchObject({
      verdict: 'pass',
      reason: expect.stringContaining('nobody else; no longer to be shown: "Lund Bjørn 00990".'),
    })
  })

  test.each([
    ['2026-02-28', 'pass', undefined],
    ['2026-03-01', 'fail', true],
    ['2026-03-31', 'fail', true],
  ])('on %s it is told to ask again only when that is near', (today, verdict, warns) => {
    const [first] = found(today)
    expect([first?.verdict, first?.warns]).toEqual([verdict, warns])
  })

  test('and a last day: the first of the two counts', () => {
    expect(found('2026-04-01', COMPLETE, staff('2026-01-31'))[0]?.measured).toBe('left on 2026-01-31')
    expect(found('2026-04-01', COMPLETE, staff('2026-06-30'))[0]?.measured).toBe(
      'agreed to be shown until 2026-03-31',
    )
  })
})

describe('a name that is not quite right is told once, with whom it means', () => {
  test.each([
    [
      'misspelled',
      'print/Lunt-Bjørn_00990.jpg',
      '"Lunt" is not on the roster; it most likely means "Lund Bjørn 00990".',
    ],
    [
      'other letter case',
      'print/LUND-Bjørn_00990.jpg',
      '"LUND" is not on the roster with this capitalization',
    ],
    ['other accents', 'print/Lünd-Bjørn_00990.jpg', '"Lünd" is not on the roster with these accents'],
    ['another number', 'print/Lund-Bjørn_00991.jpg', '"00991" is not on the roster; it most likely means'],
  ])('%s', (_, path, words) => {
    const lines = judge([...without('print/Lund-Bjørn_00990.jpg'), path])
    expect(lines).toHaveLength(1)
    expect(lines[0]).toContain(`fail Lund Bjørn 00990 [${path}]`)
    expect(lines[0]).toContain(words)
  })

  test('not when file-name tells it, unless that is switched off', () => {
    const paths = [...without('print/Lund-Bjørn_00990.jpg'), 'print/Lund-Bjørn_990.jpg']
    expect(judge(paths)[0]).toMatch(/^pass/)
    expect(judge(paths, STAFF, { namesJudged: false })[0]).toMatch(/^fail Lund Bjørn 00990/)
  })
})

test('a name that tells nobody is left to file-name, or to a person', () => {
  const paths = [...COMPLETE, 'print/scan.jpg']
  expect(judge(paths)).toEqual([
    'skip  [print/scan.jpg]: The name of "print/scan.jpg" does not identify a person; see file-name.',
  ])
  expect(judge(paths, STAFF, { namesJudged: false })[0]).toMatch(/^unsure/)
})

test('without a roster nothing passes', () => {
  expect(judge(COMPLETE, null)[0]).toMatch(/^unsure/)
})
