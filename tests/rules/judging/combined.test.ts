import { expect, test } from 'vitest'
import type { Finding, Verdict } from '../../../src/rules/contract/outcome.ts'
import { combined } from '../../../src/rules/judging/combined.ts'

const finding = (verdict: Verdict, word: string): Finding => ({
  verdict,
  measured: word,
  expected: `no ${word}`,
  reason: `There is ${word}.`,
  figure: { value: word.length },
  ...(verdict === 'fail' && { fix: `Take away ${word}.` }),
})

test.each([
  ['pass', 'pass', 'pass'],
  ['pass', 'unsure', 'unsure'],
  ['pass', 'fail', 'fail'],
  ['unsure', 'fail', 'fail'],
] as const)('%s and %s is %s', (first, second, verdict) => {
  expect(combined([finding(first, 'dust'), finding(second, 'lint')]).verdict).toBe(verdict)
  expect(combined([finding(second, 'lint'), finding(first, 'dust')]).verdict).toBe(verdict)
})

test('what is met is not told beside what is missed', () => {
  expect(combined([finding('pass', 'dust'), finding('fail', 'fluff'), finding('fail', 'lint')])).toEqual({
    verdict: 'fail',
    measured: 'fluff, lint',
    expected: 'no fluff, no lint',
    reason: 'There is fluff. There is lint.',
    fix: 'Take away fluff. Take away lint.',
    figure: { value: 5 },
  })
})

test('what is unknown is told beside what is missed; only the miss has a fix', () => {
  expect(combined([finding('unsure', 'dust'), finding('fail', 'lint'), finding('pass', 'fluff')])).toEqual({
    verdict: 'fail',
    measured: 'dust, lint',
    expected: 'no dust, no lint',
    reason: 'There is dust. There is lint.',
    fix: 'Take away lint.',
    figure: { value: 4 },
  })
})

test('what is said twice is told once, and what is unknown not at all', () => {
  const unknown: Finding = { verdict: 'unsure', measured: null, expected: 'x', reason: 'No face.' }
  const both = combined([unknown, unknown])
  expect(both).toEqual({ verdict: 'unsure', measured: null, expected: 'x', reason: 'No face.' })
})

test('one finding stays as it is, none is an error of the rule', () => {
  const one = finding('fail', 'dust')
  expect(combined([one])).toBe(one)
  expect(() => combined([])).toThrow('asked nothing')
})
