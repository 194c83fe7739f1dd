import { describe, expect, test } from 'vitest'
import type { Person } from '../../src/people/person.ts'
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
  files: ['print/Lund.jpg'],
  people: [],
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
const granting = (changes: Partial<Waiver>, files: readonly string[] = []) =>
  new Waivers([{ ...WAIVER, ...changes }], TODAY, [LUND], files)
const GRANT = { reason: 'As he wished.', approvedBy: 'Ingrid Vale', until: '2027-03-31' }

test.each(['fail', 'unsure'] as const)('%s is waived and keeps its verdict', (verdict) => {
  const waivers = granting({})
  expect(waivers.grant(outcome(verdict), ABOUT)).toEqual({ ...outcome(verdict), waiver: GRANT })
  expect(waivers.report()).toMatchObject([{ line: 3, state: 'used' }])
})

test.each(['pass', 'skip'] as const)('%s needs no waiver, which is unused then', (verdict) => {
  const waivers = granting({}, ABOUT.files)
  expect(waivers.grant(outcome(verdict), ABOUT)).toEqual(outcome(verdict))
  expect(waivers.report()).toMatchObject([{ state: 'unused' }])
})

test('of two files whose names differ in their Unicode form only, the one that it names', () => {
  const [composed, decomposed] = ['Zo\u00eb.jpg', 'Zoe\u0308.jpg']
  const waivers = granting({ files: [composed] }, [composed, decomposed])
  const waived = (file: string) =>
    waivers.grant(outcome('fail'), { ...ABOUT, files: [file] }).waiver !== undefined
  expect([composed, decomposed].map(waived)).toEqual([true, false])
})

describe('whom it covers', () => {
  test.each([
    ['the file in another Unicode form', { files: ['Zo\u00eb.jpg'] }, ['Zoe\u0308.jpg'], true],
    ['another file', { files: ['web/Lund.jpg'] }, ABOUT.files, false],
    ['a person by label', { files: [], people: [LUND.label] }, ABOUT.files, true],
    ['a person by a field', { files: [], people: [{ 'staff-id': '00990' }] }, ABOUT.files, true],
    [
      'a person by two fields',
      { files: [], people: [{ 'staff-id': '00990', family: 'Lund' }] },
      ABOUT.files,
      true,
    ],
    [
      'a person of whom one field differs',
      { files: [], people: [{ 'staff-id': '00990', family: 'Pham' }] },
      ABOUT.files,
      false,
    ],
    ['a field that nobody has', { files: [], people: [{ practice: 'Mill Street' }] }, ABOUT.files, false],
    ['another rule', { rule: 'headroom' }, ABOUT.files, false],
  ])('%s', (_, changes, files, covered) => {
    const granted = granting(changes).grant(outcome('fail'), { ...ABOUT, files })
    expect(granted.waiver !== undefined).toBe(covered)
  })
})

describe('what is about several is waived by naming them all', () => {
  const twins = { ...ABOUT, files: ['a.jpg', 'b.jpg'], people: ['Lund Bjørn 00990', 'Pham Linh 00991'] }
  const nobodys = { ...twins, people: [...twins.people, null] }
  test.each([
    ['one file of two', twins, { files: ['a.jpg'] }, 'partial'],
    ['both files', twins, { files: ['b.jpg', 'a.jpg'] }, 'used'],
    [
      'two files of three',
      { ...twins, files: ['a.jpg', 'b.jpg', 'c.jpg'] },
      { files: ['b.jpg', 'a.jpg'] },
      'partial',
    ],
    ['one person of two', twins, { files: [], people: [LUND.label] }, 'partial'],
    ['both people', twins, { files: [], people: [{ family: 'Lund' }, 'Pham Linh 00991'] }, 'used'],
    [
      'both people and a file of nobody',
      nobodys,
      { files: [], people: [LUND.label, 'Pham Linh 00991'] },
      'partial',
    ],
    ['a file that is not there', twins, { files: ['c.jpg'] }, 'absent'],
    ['nobody of that name', twins, { files: [], people: ['Bjørn Lund'] }, 'absent'],
  ])('%s', (_, about, changes, state) => {
    const waivers = granting(changes)
    expect(waivers.grant(outcome('fail'), about).waiver !== undefined).toBe(state === 'used')
    expect(waivers.report()).toMatchObject([{ state }])
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
