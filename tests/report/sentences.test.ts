import { expect, test } from 'vitest'
import { leftSentence, totalsSentence, verdictSentence } from '../../src/report/sentences.ts'
import { reportOn, SPEC } from '../judge/sample.ts'
import { head } from '../rules/judging/cases.ts'

const pass = { file: 'a.jpg' }
const fail = { file: 'b.jpg', measured: head({ headroomPct: 2 }) }
const unsure = { file: 'c.jpg', measured: head({ confidence: 0.1 }) }

test.each([
  [[pass], 'The portrait passes.', '1 portrait: 1 pass, 0 fail, 0 unsure; 0 warnings.'],
  [[pass, pass], 'All 2 portraits pass.', '2 portraits: 2 pass, 0 fail, 0 unsure; 0 warnings.'],
  [[pass, fail], 'Of 2 portraits, 1 fails.', '2 portraits: 1 pass, 1 fail, 0 unsure; 0 warnings.'],
  [
    [fail, fail, unsure],
    'Of 3 portraits, 2 fail and 1 is unsure.',
    '3 portraits: 0 pass, 2 fail, 1 unsure; 0 warnings.',
  ],
  [[unsure, unsure], 'Of 2 portraits, 2 are unsure.', '2 portraits: 0 pass, 0 fail, 2 unsure; 0 warnings.'],
  [[], 'No portrait was judged.', '0 portraits: 0 pass, 0 fail, 0 unsure; 0 warnings.'],
])('%#', (files, verdict, totals) => {
  expect(verdictSentence(reportOn(files))).toBe(verdict)
  expect(totalsSentence(reportOn(files))).toBe(totals)
})

test('strict tells why a run without a failing portrait fails', () => {
  const strict = { strict: true }
  expect(verdictSentence(reportOn([unsure], SPEC, strict))).toBe(
    'Of 1 portrait, 1 is unsure, which fails a strict run.',
  )
  expect(verdictSentence(reportOn([fail], SPEC, strict))).toBe('Of 1 portrait, 1 fails.')
  expect(totalsSentence(reportOn([pass], SPEC, strict))).not.toContain('strict')
})

test('what was left', () => {
  const left = (hidden: number, sidecars: number, links: number, other: number) =>
    leftSentence(reportOn([], SPEC, { left: { hidden, sidecars, links, other } }))
  expect(left(0, 0, 0, 0)).toBeNull()
  expect(left(1, 0, 0, 0)).toBe('Not checked: 1 hidden file.')
  expect(left(2, 1, 1, 3)).toBe(
    'Not checked: 2 hidden files, 1 document or sidecar, 1 link and 3 other files.',
  )
})
