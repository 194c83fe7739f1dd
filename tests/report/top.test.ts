import { expect, test } from 'vitest'
import type { Report } from '../../src/judge/report.ts'
import { moreRules, peopleSentence, ruleLines } from '../../src/report/top.ts'
import { reportOn } from '../judge/sample.ts'

const TWO = reportOn([{ file: 'a.jpg' }, { file: 'b.jpg' }])
const withSummary = (summary: Partial<Report['summary']>): Report => ({
  ...TWO,
  summary: { ...TWO.summary, ...summary },
})
const FOUND = {
  ...{ advisory: false, people: [], files: [], verdict: 'pass' as const },
  ...{ measured: null, expected: null, reason: 'Everybody is there.' },
}
const NOBODY = {
  expected: 40,
  missing: [],
  incomplete: [],
  perhaps: [],
  double: [],
  unknown: [],
  undelivered: [],
}

test('who is missing, in a sentence; few names of many', () => {
  expect(peopleSentence(withSummary({ people: null }))).toBeNull()
  expect(peopleSentence(withSummary({ people: NOBODY }))).toBe(
    '40 people, none double; only a roster could tell who is missing.',
  )
  const roster = { outcomes: [{ ...FOUND, rule: 'roster' }] }
  expect(
    peopleSentence({ ...withSummary({ people: NOBODY }), delivery: { ...TWO.delivery, ...roster } }),
  ).toBe('40 people, none missing or double.')
  const people = {
    ...NOBODY,
    missing: ['A', 'B', 'C', 'D', 'E'],
    unknown: ['Z'],
    undelivered: ['print', 'web'],
  }
  expect(peopleSentence(withSummary({ people }))).toBe(
    '40 people: 5 missing (A, B, C and 2 more); 1 not on the roster (Z). Nobody has print or web.',
  )
})

test('a rule says on how many files it is missed, and what to make of that', () => {
  const rule = { rule: 'headroom', advisory: false, fail: 9, unsure: 1, of: 10, widespread: true }
  const tilt = { ...rule, rule: 'tilt', advisory: true, fail: 0, unsure: 2, widespread: false }
  const lines = ruleLines(withSummary({ rules: [rule, tilt] }))
  expect(lines.map(({ files, note }) => `${files}: ${note}`)).toEqual([
    '10 of 10: Is the spec right? 1 unsure.',
    '2 of 10: Unsure: check by eye. Warns only.',
  ])
  expect(moreRules(lines)).toBe('2 more rules, each missed by at most 10 portraits')
})

test('of one portrait its findings say as much', () => {
  expect(ruleLines({ ...TWO, totals: { ...TWO.totals, files: 1 } })).toEqual([])
})
