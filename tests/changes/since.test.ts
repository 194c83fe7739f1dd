import { expect, test } from 'vitest'
import { changesSince } from '../../src/changes/since.ts'
import { reportOn } from '../judge/sample.ts'
import { wholeReport } from '../judge/whole.ts'
import { COMPLETE } from '../rules/delivery/delivery-cases.ts'

const brief = (changes: readonly { rule: string; files: readonly string[]; people: readonly string[] }[]) =>
  changes.map(({ rule, files, people }) => [rule, ...files, ...people].join(' '))

/** A portrait that is too small, of one person. */
const retake = (file: string, content: string) => ({
  ...{ file, person: 'Gale Ida 00817', measured: { sha256: content.repeat(64), widthPx: 10 } },
})

test('a file that was renamed is the same file', () => {
  const bad = { sha256: 'a'.repeat(64), widthPx: 10 }
  const before = reportOn([{ file: 'print/wrong.jpg', measured: bad }])
  const now = reportOn([{ file: 'print/right.jpg', measured: bad }])
  const { new: added, remaining, fixed } = changesSince(now, before, 'report.json', 'all')
  expect([...added, ...fixed]).toEqual([])
  expect(brief(remaining)).toContain('pixel-size print/right.jpg')
})

test('a file that is checked from another folder is the same file, as long as it can be only one', () => {
  const before = reportOn([{ file: 'print/a.jpg', measured: { sha256: 'a'.repeat(64), widthPx: 10 } }])
  const there = ['delivery/print/a.jpg', 'retakes/print/a.jpg']
  const nowOf = (files: string[]) =>
    reportOn(files.map((file, i) => ({ file, measured: { sha256: `${i}`.repeat(64), widthPx: 10 } })))
  const one = changesSince(nowOf(there.slice(0, 1)), before, 'report.json', 'part')
  expect(brief(one.remaining)).toContain('pixel-size delivery/print/a.jpg')
  expect([...one.new, ...one.fixed, ...one.notJudged]).toEqual([])
  const two = changesSince(nowOf(there), before, 'report.json', 'part')
  expect(two.remaining).toEqual([])
  expect(brief(two.notJudged)).toContain('pixel-size print/a.jpg')
  // A name alone says nothing.
  expect(changesSince(nowOf(['web/a.jpg']), before, 'report.json', 'part').remaining).toEqual([])
})

test('a file that was renamed and changed is the same file when it alone takes the place of the other', () => {
  const before = reportOn([retake('print/wrong.jpg', 'a')])
  const right = retake('print/right.jpg', 'b')
  const { new: added, remaining, fixed } = changesSince(reportOn([right]), before, '', 'all')
  expect([...added, ...fixed]).toEqual([])
  expect(brief(remaining)).toContain('pixel-size print/right.jpg')
  const others = {
    'two have come': [right, retake('print/other.jpg', 'c')],
    'somebody else': [{ ...right, person: 'Lund Bjørn 00990' }],
    'another deliverable': [{ ...right, name: { deliverable: 'web' } }],
    'nobody known': [{ ...right, person: null }],
  }
  for (const [why, files] of Object.entries(others))
    expect(changesSince(reportOn(files), before, '', 'all').remaining, why).toEqual([])
  // The other may still be among the files that were left out.
  expect(changesSince(reportOn([right]), before, '', 'part').remaining).toEqual([])
  expect(changesSince(reportOn([right]), before, '', 'only').remaining).toEqual([])
})

test('of two files with the same content nobody can tell which was renamed', () => {
  const bad = { sha256: 'a'.repeat(64), widthPx: 10 }
  const before = reportOn(['print/a.jpg', 'print/b.jpg'].map((file) => ({ file, measured: bad })))
  const now = reportOn(['print/c.jpg', 'print/d.jpg'].map((file) => ({ file, measured: bad })))
  const { new: added, remaining } = changesSince(now, before, 'report.json', 'all')
  expect(remaining).toEqual([])
  expect(brief(added)).toContain('pixel-size print/c.jpg')
})

test('a rule that gives no answer any more has fixed nothing', () => {
  const file = 'print/a.jpg'
  const before = reportOn([{ file, measured: { widthPx: 10 } }])
  const now = reportOn([{ file, measured: { widthPx: 10 }, name: { deliverable: 'web' } }])
  const { fixed, notJudged } = changesSince(now, before, 'report.json', 'all')
  expect(fixed).toEqual([])
  expect(brief(notJudged)).toContain(`pixel-size ${file}`)
})

test('a file that was taken away is fixed where all was looked at, and not judged where it was not', () => {
  const before = reportOn([{ file: 'print/a.jpg' }, { file: 'print/b.jpg', measured: { widthPx: 10 } }])
  const now = reportOn([{ file: 'print/a.jpg' }])
  expect(brief(changesSince(now, before, '', 'all').fixed)).toContain('pixel-size print/b.jpg')
  for (const looked of ['only', 'part'] as const) {
    const { fixed, notJudged } = changesSince(now, before, '', looked)
    expect(fixed, looked).toEqual([])
    expect(brief(notJudged), looked).toContain('pixel-size print/b.jpg')
  }
})

test('people who were missing and come are fixed, those who go are new', () => {
  const [first = '', ...rest] = COMPLETE
  const without = wholeReport(rest)
  const all = wholeReport(COMPLETE)
  expect(brief(changesSince(all, without, '', 'all').fixed)).toEqual(['variants Lund Bjørn 00990'])
  expect(brief(changesSince(without, all, '', 'all').new)).toEqual(['variants Lund Bjørn 00990'])
  expect(first).toContain('print/Lund')
})
