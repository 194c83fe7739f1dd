import { expect, test } from 'vitest'
import { deepFreeze } from '../../src/brand-spec/freeze.ts'

test('everything within is frozen, and the value is the same', () => {
  const value = { list: [{ a: 1 }], none: null, text: 'x' }
  expect(deepFreeze(value)).toBe(value)
  for (const part of [value, value.list, value.list[0]]) expect(Object.isFrozen(part)).toBe(true)
})
