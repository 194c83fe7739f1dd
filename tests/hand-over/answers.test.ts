import { expect, test } from 'vitest'
import { agreedWaivers } from '../../src/hand-over/answers.ts'
import type { Question } from '../../src/hand-over/receipt.ts'
import type { Outcome } from '../../src/rules/contract/outcome.ts'
import { Waivers } from '../../src/waivers/apply.ts'

const grant = { reason: 'The large file was lost.', approvedBy: 'Mika Oduya', until: '2099-12-31' }
const question = (rule: string, files: string[], people: string[] = []): Question => ({
  ...{ rule, files, people, finding: 'It is small.', ...grant },
})
const outcome = (rule: string): Outcome => ({
  ...{ rule, advisory: false, verdict: 'fail', measured: null, expected: null, reason: 'It is small.' },
})
/** Whether what was agreed to covers a finding. */
const covers = (
  questions: Question[],
  answers: (boolean | null)[],
  rule: string,
  files: string[],
  people: string[] = [],
) =>
  new Waivers(agreedWaivers(questions, answers), '2026-11-27', [], ['a.jpg', 'b.jpg']).grant(outcome(rule), {
    ...{ files, people, unreadable: false },
  }).waiver !== undefined

test('what is agreed to is let through, and nothing else', () => {
  const both = [question('pixel-size', ['a.jpg']), question('headroom', ['a.jpg'])]
  expect(covers(both, [true, false], 'pixel-size', ['a.jpg'])).toBe(true)
  expect(covers(both, [true, false], 'headroom', ['a.jpg'])).toBe(false)
  expect(covers(both, [null, null], 'pixel-size', ['a.jpg'])).toBe(false)
  expect(covers(both, [true, true], 'pixel-size', ['b.jpg'])).toBe(false)
})

test('what is agreed to of two files or people together is not agreed to of one', () => {
  const files = [question('set-match', ['a.jpg', 'b.jpg'])]
  expect(covers(files, [true], 'set-match', ['a.jpg', 'b.jpg'])).toBe(true)
  expect(covers(files, [true], 'set-match', ['a.jpg'])).toBe(false)
  const people = [question('roster', [], ['Lund Bjørn', 'Nair Priya'])]
  expect(covers(people, [true], 'roster', [], ['Lund Bjørn', 'Nair Priya'])).toBe(true)
  expect(covers(people, [true], 'roster', [], ['Nair Priya'])).toBe(false)
})

test('of two questions about the same, both must be agreed to', () => {
  const twice = [question('roster', ['a.jpg']), question('roster', ['a.jpg'])]
  expect(covers(twice, [true, false], 'roster', ['a.jpg'])).toBe(false)
  expect(covers(twice, [true, true], 'roster', ['a.jpg'])).toBe(true)
})
