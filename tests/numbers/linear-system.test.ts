import { expect, test } from 'vitest'
import { mirrorUpper, solveSystem, solveSystems } from '../../src/numbers/linear-system.ts'
import { seeded } from '../random.ts'

// The rows need to change places: the first pivot is zero. Solution (1, -2, 3), by substitution.
test('a system that needs pivoting', () => {
  const solved = solveSystem(Float64Array.of(0, 2, 1, -1, 1, 1, 1, 2, 2, 0, -1, -1), 3, 1e-12)
  expect([...(solved ?? [])]).toEqual([1, -2, 3])
})

test('several right sides', () => {
  const solved = solveSystems(Float64Array.of(0, 2, 4, 2, 1, 1, 1, 3), 2, 2, 1e-12)
  expect(solved?.map((one) => [...one])).toEqual([
    [-1, 2],
    [2, 1],
  ])
})

test('no one solution is told', () => {
  expect(solveSystem(Float64Array.of(1, 2, 3, 2, 4, 6), 2, 1e-12)).toBeUndefined()
  expect(solveSystem(Float64Array.of(Number.NaN, 2, 3, 2, 4, 6), 2, 1e-12)).toBeUndefined()
})

test('random symmetric systems: what is put in comes out', () => {
  const random = seeded(7)
  for (let round = 0; round < 200; round++) {
    const n = 1 + Math.floor(6 * random())
    const wanted = Float64Array.from({ length: n }, () => 2 * random() - 1)
    const m = new Float64Array(n * (n + 1))
    for (let r = 0; r < n; r++) for (let c = r; c < n; c++) m[r * (n + 1) + c] = random() + (r === c ? n : 0)
    mirrorUpper(m, n)
    for (let r = 0; r < n; r++)
      m[r * (n + 1) + n] = wanted.reduce((sum, x, c) => sum + x * (m[r * (n + 1) + c] as number), 0)
    const solved = solveSystem(m, n, 1e-12)
    for (let r = 0; r < n; r++) expect(solved?.[r]).toBeCloseTo(wanted[r] as number, 10)
  }
})
