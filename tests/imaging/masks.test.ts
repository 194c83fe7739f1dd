import { expect, test } from 'vitest'
import { meanOf, shareOf } from '../../src/imaging/masks.ts'
import { between, brighter, common, countOf, union, valuesIn, without } from '../../src/kernels/masks.ts'

const one = Uint8Array.of(1, 1, 0, 0)
const other = Uint8Array.of(1, 0, 1, 0)
const luminance = Float32Array.of(0.25, 0.5, 0.75, 1)

test('union, common part and rest', () => {
  expect([...union(one, other)]).toEqual([1, 1, 1, 0])
  expect([...common(one, other)]).toEqual([1, 0, 0, 0])
  expect([...without(one, other)]).toEqual([0, 1, 0, 0])
})

test('what lies between two limits, both included', () => {
  expect([...between(luminance, 0.5, 0.75)]).toEqual([0, 1, 1, 0])
  expect([...between(Float32Array.of(Number.NaN, -1, 2), -Infinity, 1)]).toEqual([0, 1, 0])
  // In double precision: a float that is above the limit by less than a float can tell.
  expect([...between(Float32Array.of(0.1), 0, 0.1)]).toEqual([0])
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

test('the same in more than a step of sixteen', () => {
  const values = Float32Array.from({ length: 61 }, (_, i) => i)
  const [thirds, fifths] = [3, 5].map((n) => Uint8Array.from(values, (i) => Number(i % n === 0))) as [
    Uint8Array,
    Uint8Array,
  ]
  const expected = [...values].filter((i) => i % 3 === 0 && i % 5 !== 0)
  expect([...valuesIn(values, thirds, fifths)]).toEqual(expected)
  expect([...brighter(thirds, values, 30)]).toEqual([...values].map((i) => Number(i > 30 && i % 3 === 0)))
})
