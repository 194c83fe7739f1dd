import { expect, test } from 'vitest'
import { isDay } from '../../src/text/day.ts'

// Leap years by ISO 8601 (the Gregorian calendar): 2024 and 2000 are, 2026 and 1900 are not.
test.each(['2026-03-31', '2024-02-29', '2000-02-29', '9999-12-31'])('%s is a day', (text) => {
  expect(isDay(text)).toBe(true)
})

test.each([
  '2026-02-29',
  '1900-02-29',
  '2026-13-01',
  '2026-00-10',
  '2026-04-31',
  '31.03.2026',
  '2026-3-31',
  '2026-03-31 ',
  '46112',
  '',
])('%j is none', (text) => {
  expect(isDay(text)).toBe(false)
})
