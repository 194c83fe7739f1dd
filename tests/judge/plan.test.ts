import { Type } from '@sinclair/typebox'
import { describe, expect, test } from 'vitest'
import type { Spec } from '../../src/brand-spec/spec.ts'
import { type Planned, planDelivery, planFile, runs } from '../../src/judge/plan.ts'
import { type AnyRule, defineDeliveryRule } from '../../src/rules/contract/delivery-rule.ts'
import { fixedRule, SPEC } from './sample.ts'

const a = fixedRule('a')
const guard = fixedRule('guard', { always: 'pass' })
const name = fixedRule('file-name')
const NAMING = { text: '{family}.jpg', segments: [], fields: {} }
const spec = (changes: Partial<Spec>): Spec => ({
  ...SPEC,
  settings: {},
  deliverables: {},
  advisory: [],
  ...changes,
})
const ways = (plan: readonly Planned<AnyRule>[]) =>
  plan.map(({ rule, application }) => [rule.id, application])

describe('on a file', () => {
  const onFile = (changes: Partial<Spec>, deliverable: string | null = null, readable = true) =>
    planFile({ name: { deliverable }, readable }, spec(changes), [a, guard, name])

  test('what nobody asks for is left out; what always runs does so with its own options', () => {
    expect(ways(onFile({}))).toEqual([['guard', { kind: 'judge', options: 'pass' }]])
  })

  test('options of the deliverable, else the general ones', () => {
    const changes = { settings: { a: 1, guard: 2 }, deliverables: { web: { a: 3 }, print: {} } }
    const options = (deliverable: string | null) =>
      onFile(changes, deliverable).flatMap(({ application }) =>
        'options' in application ? [application.options] : [],
      )
    expect(options('web')).toEqual([3, 2])
    expect(options('print')).toEqual([1, 2])
    expect(options(null)).toEqual([1, 2])
  })

  test('names are judged where there is a pattern', () => {
    expect(ways(onFile({ naming: NAMING, settings: { guard: false } }))).toEqual([
      ['guard', { kind: 'off' }],
      ['file-name', { kind: 'judge', options: {} }],
    ])
  })

  test('what other deliverables alone are to meet', () => {
    const changes = { settings: { guard: false }, deliverables: { web: { a: 1 }, print: { a: false } } }
    const asked = { deliverables: ['web'] }
    expect(ways(onFile(changes, 'print'))[0]).toEqual(['a', { kind: 'off' }])
    expect(ways(onFile({ ...changes, deliverables: { web: { a: 1 }, print: {} } }, 'print'))[0]).toEqual([
      'a',
      { kind: 'elsewhere', ...asked },
    ])
    expect(ways(onFile(changes, null))[0]).toEqual(['a', { kind: 'unplaced', ...asked }])
    expect(ways(onFile(changes, 'constructor'))[0]).toEqual(['a', { kind: 'unplaced', ...asked }])
  })

  test('over a file that can not be read, what stands guard is neither off nor a mere warning', () => {
    const changes = { settings: { a: false, guard: false }, advisory: ['a', 'guard'] }
    expect(onFile(changes, null, false)).toEqual([
      { rule: a, application: { kind: 'off' }, advisory: true },
      { rule: guard, application: { kind: 'guard', options: 'pass' }, advisory: false },
    ])
    expect(onFile(changes).map(({ advisory }) => advisory)).toEqual([true, true])
  })
})

test('over the whole delivery: named, unasked, off, or not at all', () => {
  const rule = (id: string, unasked: number | null) =>
    defineDeliveryRule({
      id,
      severity: 'label',
      dependsOn: 'scene',
      text: { title: id, measures: id, why: id, fix: id, example: `${id}: 1` },
      options: Type.Number(),
      unasked: () => unasked,
      needs: [],
      judge: () => [],
    })
  const rules = [rule('named', 1), rule('unasked', 2), rule('off', 3), rule('absent', null)]
  const known = { deliverables: [], roster: null, gallery: null }
  const changes = { settings: { named: 5, off: false }, advisory: ['unasked'] }
  const plan = planDelivery(known, spec(changes), rules)
  expect(ways(plan)).toEqual([
    ['named', { kind: 'judge', options: 5 }],
    ['unasked', { kind: 'judge', options: 2 }],
    ['off', { kind: 'off' }],
  ])
  expect(plan.map(({ advisory }) => advisory)).toEqual([false, true, false])
  expect(plan.filter(runs).map(({ rule: { id } }) => id)).toEqual(['named', 'unasked'])
})
