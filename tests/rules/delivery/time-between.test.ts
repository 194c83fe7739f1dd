import { expect, test } from 'vitest'
import { timeBetween } from '../../../src/rules/delivery/time-between.ts'
import { GOOD_METADATA } from '../judging/cases.ts'
import { portrait } from './deliveries.ts'

const taken = (...times: (string | null)[]) =>
  times.map((captureTime, i) =>
    portrait(`P${i}`, 'print', { rest: { metadata: { ...GOOD_METADATA, captureTime } } }),
  )

test.each([
  ['2026-03-05T12:00:00', '2026-03-05T12:40:00', '40 minutes before the others'],
  ['2026-03-05T12:00:00', '2026-03-05T12:00:10', '1 minute before the others'],
  ['2026-03-05T15:00:00', '2026-03-05T12:00:00', '3 hours after the others'],
  ['2026-03-06T20:00:00', '2026-03-05T08:00:00', '36 hours after the others'],
  ['2026-03-19T09:00:00', '2026-03-05T17:00:00', '14 days after the others'],
  // Clocks, not moments: not every camera records a zone.
  ['2026-03-05T15:00:00.25+05:00', '2026-03-05 12:00:00', '3 hours after the others'],
])('%s beside %s: %s', (own, other, says) => {
  expect(timeBetween(taken(own), taken(other))).toBe(says)
})

test('it counts from the last of the one to the first of the other', () => {
  const own = taken('2026-03-10T09:00:00', '2026-03-12T09:00:00')
  expect(timeBetween(own, taken('2026-03-01T09:00:00', '2026-03-03T09:00:00'))).toBe(
    '7 days after the others',
  )
  expect(timeBetween(own, taken('2026-03-11T09:00:00'))).toBe('at the same time as the others')
})

test.each([
  ['none recorded', taken(null, null)],
  ['hardly any recorded', taken('2026-03-10T09:00:00', null, null)],
  ['not a time', taken('in March')],
])('%s: nothing is said', (_, own) => {
  expect(timeBetween(own, taken('2026-03-01T09:00:00'))).toBeNull()
})
