import { describe, expect, test } from 'vitest'
import type { Spec } from '../../src/brand-spec/spec.ts'
import { judgeFile } from '../../src/judge/judge.ts'
import type { Subject } from '../../src/rules/contract/rule.ts'
import { RULES } from '../../src/rules/index.ts'
import { GOOD, GOOD_NAME, UNREAD } from '../rules/judging/cases.ts'
import { fixedRule, SPEC } from './sample.ts'

const a = fixedRule('a')
const b = fixedRule('b')
const guard = fixedRule('guard', { always: 'pass' })
const spec = (changes: Partial<Spec>): Spec => ({
  ...SPEC,
  settings: {},
  deliverables: {},
  waivers: null,
  consent: null,
  namedIn: { roster: 'brand.yaml', waivers: 'brand.yaml' },
  extended: [],
  advisory: [],
  ...changes,
})
const on = (deliverable: string | null, measured: Partial<Subject['measured']> = {}): Subject => ({
  measured: { ...GOOD, ...measured },
  name: { ...GOOD_NAME, deliverable },
})
const verdicts = (subject: Subject, changes: Partial<Spec>, rules = [a, b]) =>
  judgeFile(subject, spec(changes), rules).map(({ rule, verdict }) => `${rule} ${verdict}`)

describe('which rules run', () => {
  test('those that the spec names, in the order of the rules', () => {
    expect(verdicts(on(null), { settings: { b: 'fail', a: 'pass' } })).toEqual(['a pass', 'b fail'])
    expect(verdicts(on(null), { settings: { b: 'unsure' } })).toEqual(['b unsure'])
    expect(verdicts(on(null), {})).toEqual([])
  })

  test('those that always run, with their own options or those of the spec', () => {
    expect(verdicts(on(null), {}, [guard])).toEqual(['guard pass'])
    expect(verdicts(on(null), { settings: { guard: 'unsure' } }, [guard])).toEqual(['guard unsure'])
  })

  test('file-name as soon as there is a naming pattern, unless it is off', () => {
    const naming = { text: '{family}.jpg', segments: [], fields: {} }
    expect(judgeFile(on(null), spec({ naming }), RULES).map(({ rule }) => rule)).toContain('file-name')
    expect(judgeFile(on(null), spec({}), RULES).map(({ rule }) => rule)).not.toContain('file-name')
    const off = judgeFile(on(null), spec({ naming, settings: { 'file-name': false } }), RULES)
    expect(off.find(({ rule }) => rule === 'file-name')?.verdict).toBe('skip')
    const bad = on(null)
    const problems = [{ kind: 'extension', wanted: '.jpg', found: '' } as const]
    const outcomes = judgeFile({ ...bad, name: { ...bad.name, problems } }, spec({ naming }), RULES)
    expect(outcomes.find(({ rule }) => rule === 'file-name')?.verdict).toBe('fail')
  })

  test('a deliverable replaces the options', () => {
    const changes = { settings: { a: 'pass' }, deliverables: { web: { a: 'fail' }, print: {} } }
    expect(verdicts(on('web'), changes)).toEqual(['a fail'])
    expect(verdicts(on('print'), changes)).toEqual(['a pass'])
  })

  test('a rule that only other deliverables name is skipped with the reason', () => {
    const [outcome] = judgeFile(on('print'), spec({ deliverables: { web: { a: 'fail' }, print: {} } }), [a])
    expect(outcome).toMatchObject({ verdict: 'skip', reason: 'The spec asks for this only in web.' })
  })

  test('a rule that every deliverable switches off is not asked at all', () => {
    expect(verdicts(on('print'), { deliverables: { web: { a: false }, print: {} } })).toEqual([])
  })
})

describe('switched off', () => {
  test('in general', () => {
    const [outcome] = judgeFile(on(null), spec({ settings: { a: false } }), [a])
    expect(outcome).toMatchObject({ verdict: 'skip', reason: 'Switched off in the spec.' })
  })

  test('on a deliverable, and on again on one', () => {
    expect(verdicts(on('web'), { settings: { a: 'fail' }, deliverables: { web: { a: false } } })).toEqual([
      'a skip',
    ])
    expect(verdicts(on('web'), { settings: { a: false }, deliverables: { web: { a: 'pass' } } })).toEqual([
      'a pass',
    ])
  })

  test.each([
    ['truncated', 'intact'],
    ['empty', 'intact'],
    ['lfs-pointer', 'intact'],
    ['not-a-picture', 'file-format'],
    ['format', 'file-format'],
  ] as const)('a file with the fault %s fails all the same', (kind, rule) => {
    const broken = on(null, { ...UNREAD, fault: { kind, detail: '' } })
    const off = { intact: false, 'file-format': false, 'one-face': false }
    const advisory = ['intact', 'file-format', 'one-face']
    const outcomes = judgeFile(broken, spec({ settings: off, advisory }), RULES)
    expect(outcomes.filter(({ verdict }) => verdict === 'fail')).toMatchObject([{ rule, advisory: false }])
    expect(outcomes.filter(({ verdict }) => verdict === 'skip')).toHaveLength(2)
  })

  test('the same on a deliverable', () => {
    const broken = on('web', UNREAD)
    const deliverables = { web: { intact: false } }
    const intact = judgeFile(broken, spec({ deliverables }), RULES).find(({ rule }) => rule === 'intact')
    expect(intact?.verdict).toBe('fail')
  })

  test('a whole file is left alone', () => {
    const outcomes = judgeFile(on(null), spec({ settings: { intact: false } }), RULES)
    expect(outcomes.find(({ rule }) => rule === 'intact')?.verdict).toBe('skip')
  })
})

describe('a file whose deliverable is not known', () => {
  const changes = {
    settings: { 'file-name': 'fail', a: 'pass' },
    deliverables: { web: { b: 'pass' }, print: { a: 'fail', b: 'fail' } },
  }
  const name = fixedRule('file-name')

  test.each([null, 'post', 'constructor', '__proto__'])('%s: the general settings hold', (deliverable) => {
    expect(verdicts(on(deliverable), changes, [name, a])).toEqual(['file-name fail', 'a pass'])
  })

  test('what deliverables ask is skipped where the name fails already', () => {
    const outcomes = judgeFile(on(null), spec(changes), [b, name])
    expect(outcomes[0]).toMatchObject({
      verdict: 'skip',
      reason:
        'The spec asks for this only in web and print, and the file name does not give the deliverable; see file-name.',
    })
  })

  test.each([
    ['no rule judges the name', [b], []],
    ['the name passes', [fixedRule('file-name', { always: 'pass' }), b], []],
    ['a bad name is only a warning', [name, b], ['file-name']],
  ])('and is unsure where %s', (_, rules, advisory) => {
    const settings = advisory.length > 0 ? { 'file-name': 'fail' } : {}
    const outcomes = judgeFile(on(null), spec({ ...changes, settings, advisory }), rules)
    expect(outcomes.find(({ rule }) => rule === 'b')).toMatchObject({
      verdict: 'unsure',
      reason: expect.stringContaining('check by eye'),
    })
  })
})

test('only what stands guard, and only over a file that can not be read, is never a mere warning', () => {
  const changes = { settings: { a: 'fail' }, advisory: ['a', 'guard'] }
  const marks = (subject: Subject) =>
    judgeFile(subject, spec(changes), [a, guard]).map(({ advisory }) => advisory)
  expect(marks(on(null))).toEqual([true, true])
  expect(marks(on(null, UNREAD))).toEqual([true, false])
})

test('only what stands guard is judged though it is off', () => {
  const failing = fixedRule('guard', { always: 'fail' })
  const off = { settings: { a: false, guard: false } }
  expect(verdicts(on(null), off, [a, failing])).toEqual(['a skip', 'guard skip'])
  expect(verdicts(on(null, UNREAD), off, [a, failing])).toEqual(['a skip', 'guard fail'])
  const throwing = {
    judge: () => {
      throw new Error('asked')
    },
  }
  expect(verdicts(on(null, UNREAD), off, [{ ...a, ...throwing }])).toEqual(['a skip'])
})

test('advisory rules are marked', () => {
  const outcomes = judgeFile(on(null), spec({ settings: { a: 'fail', b: 'fail' }, advisory: ['b'] }), [a, b])
  expect(outcomes.map(({ advisory }) => advisory)).toEqual([false, true])
})
