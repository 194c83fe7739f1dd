import { expect, test } from 'vitest'
import { apply, determinant, invert, type Matrix, multiply, solve } from '../../src/numbers/matrix3.ts'

// Worked by hand: 2 (3 x 2 - 1 x 1) - 1 (1 x 2 - 1 x 0) + 0 = 8.
const M: Matrix = [
  [2, 1, 0],
  [1, 3, 1],
  [0, 1, 2],
]

test('determinant', () => expect(determinant(M)).toBe(8))

test('the inverse undoes it', () => {
  const product = multiply(M, invert(M)).flat()
  for (const [i, value] of [1, 0, 0, 0, 1, 0, 0, 0, 1].entries()) expect(product[i]).toBeCloseTo(value, 14)
})

test('what is put in comes out', () => {
  const found = solve(M, apply(M, [1, -2, 3]))
  for (const [i, value] of [1, -2, 3].entries()) expect(found[i]).toBeCloseTo(value, 14)
})

test('no inverse, no numbers', () => {
  const singular: Matrix = [M[0], M[0], M[2]]
  expect(determinant(singular)).toBe(0)
  expect(solve(singular, [1, 2, 3]).some(Number.isFinite)).toBe(false)
})
