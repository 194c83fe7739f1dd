import { describe, expect, test } from 'vitest'
import { byFile, fileVerdict } from '../../src/judge/verdict.ts'
import type { DeliveryOutcome } from '../../src/rules/contract/delivery-outcome.ts'
import type { Outcome } from '../../src/rules/contract/outcome.ts'

const own = (verdict: Outcome['verdict']): Outcome => ({
  ...{ rule: 'headroom', advisory: false, verdict, measured: null, expected: null, reason: 'So it is.' },
})
const about = (verdict: Outcome['verdict'], changes: Partial<DeliveryOutcome> = {}): DeliveryOutcome => ({
  ...own(verdict),
  ...{ rule: 'same-frame', people: [], files: ['a.jpg'] },
  ...changes,
})
const waiver = { reason: 'a', approvedBy: 'b', until: '2027-03-31' }

describe('a file has the worst verdict that any rule gives it', () => {
  test.each([
    ['a rule over the delivery fails', [own('pass')], [about('pass'), about('fail')], 'fail'],
    ['one is unsure', [own('pass')], [about('unsure')], 'unsure'],
    ['the file itself is worse', [own('fail')], [about('unsure')], 'fail'],
    ['all are content', [own('pass')], [about('pass'), about('skip')], 'pass'],
    ['only a warning', [own('pass')], [about('fail', { advisory: true })], 'pass'],
    ['an exception covers it', [own('pass')], [about('fail', { waiver })], 'pass'],
    ['nothing was judged on the file alone', [own('skip')], [about('pass')], 'unsure'],
    ['nothing but by the delivery', [own('skip')], [about('fail')], 'fail'],
  ] as const)('%s', (_, mine, others, verdict) => {
    expect(fileVerdict(mine, others)).toBe(verdict)
  })
})

test('an outcome counts for each file that it names, once', () => {
  const both = about('fail', { files: ['a.jpg', 'b.jpg', 'a.jpg'] })
  const whole = about('fail', { files: [] })
  expect([...byFile([both, whole])]).toEqual([
    ['a.jpg', [both]],
    ['b.jpg', [both]],
  ])
})
