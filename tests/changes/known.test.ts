import { describe, expect, test } from 'vitest'
import { withKnown } from '../../src/changes/known.ts'
import type { DeliveryOutcome } from '../../src/rules/contract/delivery-outcome.ts'

function outcome(changes: Partial<DeliveryOutcome>): DeliveryOutcome {
  return {
    rule: 'roster',
    advisory: false,
    verdict: 'fail',
    measured: 'missing',
    expected: 'the people on the roster',
    reason: '"Nair Priya" has no portrait in the delivery.',
    people: ['Nair Priya'],
    files: [],
    ...changes,
  }
}

const stray = (spreads: number, ...traits: string[]) =>
  outcome({
    rule: 'set-match',
    people: [],
    files: ['print/a.jpg'],
    reason: `"print/a.jpg" stands out from the set (${spreads}).`,
    figure: { value: spreads, max: 3.5 },
    traits,
  })
const double = outcome({ rule: 'variants', measured: null, files: ['a.jpg', 'b.jpg'] })
const exception = { reason: 'As she wished.', approvedBy: 'Ingrid Vale', until: '2027-03-31' }

/** How many of the findings of now are known. */
function known(
  now: readonly DeliveryOutcome[],
  before: readonly DeliveryOutcome[],
  changed: readonly string[] = ['print/new.jpg'],
): number {
  return withKnown(now, before, new Set(changed)).filter((one) => one.known).length
}

describe('known from before', () => {
  test.each<[string, DeliveryOutcome, DeliveryOutcome]>([
    ['the same finding', outcome({}), outcome({})],
    ['the same, unsure both times', outcome({ verdict: 'unsure' }), outcome({ verdict: 'unsure' })],
    ['files in another order', double, { ...double, files: ['b.jpg', 'a.jpg'] }],
    ['another fix', outcome({ fix: 'Begin with this one.' }), outcome({ fix: 'Crop wider.' })],
    ['numbers that move with the set', stray(4.4, 'headroom low'), stray(4.1, 'headroom low')],
    ['traits in another order', stray(4, 'eye-line low', 'tilt low'), stray(4, 'tilt low', 'eye-line low')],
    ['fewer misses than before', stray(4, 'headroom low'), stray(4, 'eye-line low', 'headroom low')],
  ])('%s', (_, now, before) => {
    expect(known([now], [before])).toBe(1)
  })
})

describe('not known', () => {
  test.each<[string, DeliveryOutcome, DeliveryOutcome]>([
    ['another person', outcome({ people: ['Lund Bjørn'] }), outcome({})],
    ['one person more', outcome({ people: ['Nair Priya', 'Lund Bjørn'] }), outcome({})],
    ['another rule with the same words', outcome({ rule: 'variants' }), outcome({})],
    ['another file with the same words', { ...double, files: ['a.jpg', 'c.jpg'] }, double],
    ['one file more', { ...double, files: ['a.jpg', 'b.jpg', 'c.jpg'] }, double],
    ['one file less: what is left may be another', { ...double, files: ['a.jpg'] }, double],
    [
      'other words',
      outcome({ reason: 'has no portrait for web1' }),
      outcome({ reason: 'has no portrait for web2' }),
    ],
    ['unsure before, a failure now', outcome({}), outcome({ verdict: 'unsure' })],
    ['accepted before, no longer', outcome({}), outcome({ waiver: exception })],
    ['far more off the set', stray(9, 'headroom low'), stray(4, 'headroom low')],
    ['off to the other side', stray(4, 'headroom high'), stray(4, 'headroom low')],
    ['off in one more trait', stray(4, 'headroom low', 'eye-line low'), stray(4, 'headroom low')],
    ['met before', outcome({}), outcome({ verdict: 'pass' })],
  ])('%s', (_, now, before) => {
    expect(known([now], [before])).toBe(0)
  })

  test('whatever names a file that the change touches', () => {
    expect(known([double], [double], ['b.jpg'])).toBe(0)
    expect(known([stray(4)], [stray(4)], ['print/a.jpg'])).toBe(0)
  })

  test('a second finding of the same words, where there was one', () => {
    expect(known([outcome({}), outcome({})], [outcome({})])).toBe(1)
  })

  test('what is met or accepted now is left as it is', () => {
    const fine = [outcome({ verdict: 'pass' }), outcome({ waiver: exception })]
    expect(withKnown(fine, fine, new Set())).toEqual(fine)
  })
})
