import { expect, test } from 'vitest'
import { LIMITS } from '../../src/measure/file/read-file.ts'
import { atOnce, budgetOf } from '../../src/pool/memory-budget.ts'

test.each([1, 2, 8])('the largest picture that is decoded fits into the budget of %i workers', (workers) => {
  expect(budgetOf(workers)).toBeGreaterThanOrEqual(LIMITS.memory)
})

test('as many at a time as fit, and one always', () => {
  expect(atOnce(900, 300, 8)).toBe(3)
  expect(atOnce(900, 300, 2)).toBe(2)
  expect(atOnce(900, 500, 8)).toBe(1)
  expect(atOnce(900, 9000, 8)).toBe(1)
})
