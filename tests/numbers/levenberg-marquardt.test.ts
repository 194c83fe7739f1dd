import { describe, expect, test } from 'vitest'
import { levenbergMarquardt } from '../../src/numbers/levenberg-marquardt.ts'
import type { Triple } from '../../src/numbers/matrix3.ts'
import { NormalEquations } from '../../src/numbers/normal-equations.ts'

// Rat42 of the NIST Statistical Reference Datasets (nonlinear regression, "higher level of difficulty"): pasture yield, a
// sigmoid y = b1 / (1 + exp(b2 - b3 x)). Data, starts and certified values from memory; the residual sum of squares below
// comes out only if all agree.
const DATA = [
  [9, 8.93],
  [14, 10.8],
  [21, 18.59],
  [28, 22.33],
  [42, 39.35],
  [57, 56.11],
  [63, 61.73],
  [70, 64.62],
  [79, 67.08],
] as const
const CERTIFIED = [72.462237576, 2.6180768402, 0.067359200066] as const
const RESIDUAL_SQUARES = 8.0565229338
const DEVIATIONS = [1.7340283401, 0.088295217536, 0.0034465663377] as const

function evaluate([b1, b2, b3]: Triple) {
  const normal = new NormalEquations()
  let cost = 0
  for (const [x, y] of DATA) {
    const e = Math.exp(b2 - b3 * x)
    const residual = y - b1 / (1 + e)
    cost += residual ** 2
    normal.add([1 / (1 + e), (-b1 * e) / (1 + e) ** 2, (b1 * e * x) / (1 + e) ** 2], residual, 1)
  }
  return { cost, normal }
}

describe('Rat42', () => {
  test.each([
    [100, 1, 0.1],
    [75, 2.5, 0.07],
  ])('from %f, %f, %f', (...start) => {
    const { parameters, cost, normal } = levenbergMarquardt(evaluate, start, Infinity, (at) => at)
    expect(Math.abs(cost / RESIDUAL_SQUARES - 1)).toBeLessThan(1e-8)
    for (const [i, value] of CERTIFIED.entries())
      expect(Math.abs((parameters[i] as number) / value - 1)).toBeLessThan(1e-4)
    const scatter = Math.sqrt(cost / (DATA.length - 3))
    for (const [i, value] of DEVIATIONS.entries())
      expect(Math.abs((scatter * Math.sqrt(normal.variances[i] as number)) / value - 1)).toBeLessThan(1e-3)
  })
})

test('parameters stay within their bounds', () => {
  const { parameters } = levenbergMarquardt(evaluate, [60, 2.5, 0.07], 1, ([a, b, c]) => [
    Math.min(70, a),
    b,
    c,
  ])
  expect(parameters[0]).toBe(70)
})

test('no step is longer than asked for', () => {
  const tried: Triple[] = []
  levenbergMarquardt(
    (at) => {
      tried.push(at)
      return evaluate(at)
    },
    [75, 2.5, 0.07],
    0.01,
    (at) => at,
  )
  const [first, second] = tried as [Triple, Triple]
  for (const [i, value] of second.entries())
    expect(Math.abs(value - (first[i] as number))).toBeLessThanOrEqual(0.01 + 1e-12)
})

test('variances of what no residual tells are infinite', () => {
  expect(new NormalEquations().variances).toEqual([Infinity, Infinity, Infinity])
})
