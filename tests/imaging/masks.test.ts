import { expect, test } from 'vitest'
import { brighter, meanOf, shareOf, valuesIn } from '../../src/imaging/masks.ts'
import { common, countOf, union, without } from '../../src/kernels/masks.ts'

const one = Uint8Array.of(1, 1, 0, 0)
const other = Uint8Array.of(1, 0, 1, 0)
const luminance = Float32Array.of(0.25, 0.5, 0.75, 1)

test('union, common part and rest', () => {
  expect([...union(one, other)]).toEqual([1, 1, 1, 0])
  expect([...common(one, other)]).toEqual([1, 0, 0, 0])
  expect([...without(one, other)]).toEqual([0, 1, 0, 0])
})

test('counts and shares; nothing has no share', () => {
  expect(countOf(one)).toBe(2)
  expect(shareOf(one, other)).toBe(0.5)
  expect(shareOf(one, new Uint8Array(4))).toBe(0)
})

test('values in a mask, their mean, and what of it is brighter than a limit', () => {
  expect([...valuesIn(luminance, one, other)]).toEqual([0.5])
  expect(meanOf(luminance, other)).toBe(0.5)
  expect(meanOf(luminance, new Uint8Array(4))).toBe(0)
  expect([...brighter(one, luminance, 0.25)]).toEqual([0, 1, 0, 0])
})
