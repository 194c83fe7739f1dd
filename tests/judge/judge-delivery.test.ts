import { Type } from '@sinclair/typebox'
import { expect, test } from 'vitest'
import { judgeDelivery } from '../../src/judge/judge-delivery.ts'
import { defineDeliveryRule } from '../../src/rules/contract/delivery-rule.ts'
import { COMPLETE, deliveryOf } from '../rules/delivery/delivery-cases.ts'
import { SPEC } from './sample.ts'

/** A rule that finds as often as it is told. */
const often = (id: string, unasked: number | null = null) =>
  defineDeliveryRule({
    id,
    severity: 'label',
    dependsOn: 'scene',
    text: { title: id, measures: id, why: id, fix: id, example: `${id}: 1` },
    options: Type.Number(),
    unasked: () => unasked,
    needs: [],
    judge: (_, times) =>
      Array.from({ length: times }, (_, n) => ({
        people: [`${n}`],
        files: [],
        verdict: 'fail' as const,
        measured: null,
        expected: null,
        reason: 'So it is.',
      })),
  })
const DELIVERY = deliveryOf(COMPLETE)
const judged = (settings: Record<string, unknown>, ...rules: ReturnType<typeof often>[]) =>
  judgeDelivery(DELIVERY, { ...SPEC, settings, advisory: ['second'] }, rules)

test('rules run where the spec names them, or unasked, in their order', () => {
  const rules = [often('first'), often('second', 1), often('third')]
  expect(judged({ third: 2 }, ...rules).map(({ rule, people }) => [rule, ...people])).toEqual([
    ['second', '0'],
    ['third', '0'],
    ['third', '1'],
  ])
})

test('advisory weighs as the spec says', () => {
  const rules = [often('first', 1), often('second', 1)]
  expect(judged({}, ...rules).map(({ advisory }) => advisory)).toEqual([false, true])
})

test('a rule that is switched off is skipped, also where it would run unasked', () => {
  expect(judged({ first: false }, often('first', 1))).toEqual([
    expect.objectContaining({ rule: 'first', verdict: 'skip', people: [], files: [] }),
  ])
})

test('a rule that finds nothing at all is unsure', () => {
  expect(judged({ first: 0 }, often('first'))).toMatchObject([{ verdict: 'unsure' }])
})
