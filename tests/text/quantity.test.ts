import { expect, test } from 'vitest'
import { asked, atLeast, count, glued, listed, pixels, quantity } from '../../src/text/quantity.ts'

const band = { min: 6, max: 12 }

test.each([
  [9, '9 %'],
  [9.04, '9 %'],
  [9.06, '9.1 %'],
  [5.97, '5.97 %'],
  [5.99996, '5.99996 %'],
  [11.97, '12 %'],
  [12.04, '12.04 %'],
  [12.0000004, '12.0000004 %'],
  [5.9999999985, '5.9999999985 %'],
])('%f beside 6 to 12 reads %s', (value, text) => {
  expect(quantity(value, ' %', band)).toBe(text)
})

test('a pass never reads like a miss', () => {
  expect(quantity(11.96, '', { min: 0, max: 11.98 })).toBe('11.96')
})

test.each([
  [0.063, { min: 0.25, max: Infinity }, '0.06'],
  [0.7, { min: 0.25, max: Infinity }, '0.7'],
  [87.77, { min: 76, max: 88.25 }, '87.77'],
  [9.123456, { min: 0.1 + 0.2, max: 12 }, '9.1'],
  [9.123456, { min: 1 / 3, max: 12 }, '9.1'],
])('%d is told as finely as its limits', (value, limits, text) => {
  expect(quantity(value, '', limits)).toBe(text)
})

test('no line breaks between a number and what it counts', () => {
  expect(glued('by 3 % of the frame, or 12 x 15 px; 4 of 5')).toBe(
    'by 3\u00a0% of the frame, or 12\u00a0x\u00a015\u00a0px; 4\u00a0of 5',
  )
})

test('no exponents and no minus zero', () => {
  expect(quantity(4e-7, '', { min: 0, max: 0 })).toBe('0.0000004')
  expect(quantity(-0.01, '°')).toBe('0°')
  expect(quantity(-0.01, '°', { min: 0, max: 1 })).toBe('-0.01°')
})

test('numbers of the spec stay as they are written', () => {
  expect(asked(5.97)).toBe('5.97')
  expect(asked(0.1 + 0.2, ' L*')).toBe('0.3 L*')
  expect(asked(2400, ' px')).toBe('2400 px')
})

test('amounts to change by are enough', () => {
  expect(atLeast(2.1, '°')).toBe('2.1°')
  expect(atLeast(2.1000001, '°')).toBe('2.1°')
  expect(atLeast(2.11, '°')).toBe('2.2°')
  expect(atLeast(0.003, '°')).toBe('0.1°')
  expect(pixels(1.9, 3000)).toBe('57 px')
  expect(pixels(1.91, 3000)).toBe('58 px')
})

test('counts and lists', () => {
  expect(count(1, 'file')).toBe('1 file')
  expect(count(0, 'file')).toBe('0 files')
  expect(count(2, 'copy', 'copies')).toBe('2 copies')
  expect(listed([])).toBe('')
  expect(listed(['a'])).toBe('a')
  expect(listed(['a', 'b'], 'or')).toBe('a or b')
  expect(listed(['a', 'b', 'c'])).toBe('a, b and c')
})

// `toFixed` is ECMA-262's own way to write so many digits.
test('a number is written in the digits of its rounding, however large or small', () => {
  for (let power = -3; power <= 17; power++)
    for (const digits of [1, 1.05, 1.2345678901234567, -7.7777777777, 9.95, -9.96]) {
      const value = digits * 10 ** power
      const rounded = Math.round(value * 10) / 10 || 0
      expect(quantity(value, '')).toBe(rounded.toFixed(1).replace(/\.0$/, ''))
    }
})
