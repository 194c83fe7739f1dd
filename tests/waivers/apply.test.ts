import { describe, expect, test } from 'vitest'
import type { Person } from '../../src/people/people.ts'
import type { Outcome } from '../../src/rules/contract/outcome.ts'
import { type About, Waivers } from '../../src/waivers/apply.ts'
import type { Waiver } from '../../src/waivers/waiver.ts'

const TODAY = '2026-11-25'
const LUND: Person = {
  label: 'Lund Bjørn 00990',
  fields: { family: 'Lund', 'staff-id': '00990' },
  entry: null,
}
const ABOUT: About = { files: ['print/Lund.jpg'], people: [LUND.label], unreadable: false }
const WAIVER: Waiver = {
  line: 3,
  rule: 'tilt',
  file: 'print/Lund.jpg',
  person: null,
  reason: 'As he wished.',
  approvedBy: 'Ingrid Vale',
  until: '2027-03-31',
}
const outcome = (verdict: Outcome['verdict'], rule = 'tilt'): Outcome => ({
  rule,
  advisory: false,
  verdict,
  measured: null,
  expected: null,
  reason: 'So it is.',
})
const granting = (changes: Partial<Waiver>) => new Waivers([{ ...WAIVER, ...changes }], TODAY, [LUND])
const GRANT = { reason: 'As he wished.', approvedBy: 'Ingrid Vale', until: '2027-03-31' }

test.each(['fail', 'unsure'] as const)('%s is waived and keeps its verdict', (verdict) => {
  const waivers = granting({})
  expect(waivers.grant(outcome(verdict), ABOUT)).toEqual({ ...outcome(verdict), waiver: GRANT })
  expect(waivers.report()).toMatchObject([{ line: 3, state: 'used' }])
})

test.each(['pass', 'skip'] as const)('%s needs no waiver, which is unused then', (verdict) => {
  const waivers = granting({})
  expect(waivers.grant(outcome(verdict), ABOUT)).toEqual(outcome(verdict))
  expect(waivers.report()).toMatchObject([{ state: 'unused' }])
})

describe('whom it covers', () => {
  test.each([
    ['the file in another Unicode form', { file: 'Zo\u00eb.jpg' }, ['Zoe\u0308.jpg'], true],
    ['another file', { file: 'web/Lund.jpg' }, ABOUT.files, false],
    ['a person by label', { file: null, person: LUND.label }, ABOUT.files, true],
    ['a person by a field', { file: null, person: { 'staff-id': '00990' } }, ABOUT.files, true],
    [
      'a person by two fields',
      { file: null, person: { 'staff-id': '00990', family: 'Lund' } },
      ABOUT.files,
      true,
    ],
    [
      'a person of whom one field differs',
      { file: null, person: { 'staff-id': '00990', family: 'Pham' } },
      ABOUT.files,
      false,
    ],
    ['a field that nobody has', { file: null, person: { practice: 'Mill Street' } }, ABOUT.files, false],
    ['another rule', { rule: 'headroom' }, ABOUT.files, false],
  ])('%s', (_, changes, files, covered) => {
    const granted = granting(changes).grant(outcome('fail'), { ...ABOUT, files })
    expect(granted.waiver !== undefined).toBe(covered)
  })
})

test('it holds on its last day and not on the next', () => {
  expect(granting({ until: TODAY }).grant(outcome('fail'), ABOUT).waiver).toBeDefined()
  const late = granting({ until: '2026-11-24' })
  expect(late.grant(outcome('fail'), ABOUT).waiver).toBeUndefined()
  expect(late.report()).toMatchObject([{ state: 'expired' }])
})

test('nothing of a file that could not be read is waived', () => {
  const waivers = granting({ rule: 'file-format' })
  const granted = waivers.grant(outcome('fail', 'file-format'), { ...ABOUT, unreadable: true })
  expect(granted.waiver).toBeUndefined()
  expect(waivers.report()).toMatchObject([{ state: 'refused' }])
})
