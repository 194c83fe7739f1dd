import { describe, expect, test } from 'vitest'
import { rgbToLab } from '../../../../src/color/lab.ts'
import { fitColors, mapColors } from '../../../../src/measure/metadata/preview/affine.ts'
import { seeded } from '../../../random.ts'

const N = 2000
const random = seeded(5)
const colors = Array.from({ length: N }, () => rgbToLab(255 * random(), 255 * random(), 255 * random()))
const planes = (change: (L: number, a: number, b: number) => readonly [number, number, number]) => {
  const mapped = colors.map(({ L, a, b }) => change(L, a, b))
  return {
    L: Float32Array.from(mapped, ([L]) => L),
    a: Float32Array.from(mapped, ([, a]) => a),
    b: Float32Array.from(mapped, ([, , b]) => b),
  }
}
const original = planes((L, a, b) => [L, a, b])

describe('a linear change of color is found', () => {
  test.each([
    ['none', (L: number, a: number, b: number) => [L, a, b]],
    ['brighter', (L: number, a: number, b: number) => [L + 8, a, b]],
    ['less saturated and warmer', (L: number, a: number, b: number) => [L, 0.7 * a, 0.7 * b + 6]],
    [
      'mixed',
      (L: number, a: number, b: number) => [0.9 * L + 0.1 * a, 0.8 * a - 0.1 * b, 0.9 * b + 0.05 * L],
    ],
  ] as const)('%s', (_, change) => {
    const other = planes((L, a, b) => change(L, a, b) as [number, number, number])
    const mapped = mapColors(fitColors(original, other), original)
    for (const plane of ['L', 'a', 'b'] as const)
      for (let i = 0; i < N; i++)
        expect(Math.abs((mapped[plane][i] as number) - (other[plane][i] as number))).toBeLessThan(0.5)
  })
})

test('a tenth of the pixels changed otherwise does not bend it', () => {
  const other = planes((L, a, b) => [L + 8, a, b])
  for (let i = 0; i < N / 10; i++) other.L[i] = 0
  const mapped = mapColors(fitColors(original, other), original)
  for (let i = N / 10; i < N; i++)
    expect(Math.abs((mapped.L[i] as number) - (other.L[i] as number))).toBeLessThan(0.5)
})

test('a gray or a flat picture keeps its colors', () => {
  const gray = planes((L) => [L, 0, 0])
  const mapped = mapColors(fitColors(gray, gray), gray)
  for (let i = 0; i < N; i++) expect(mapped.L[i]).toBeCloseTo(gray.L[i] as number, 1)
  const flat = planes(() => [50, 0, 0])
  expect(mapColors(fitColors(flat, flat), flat).L[0]).toBeCloseTo(50, 1)
})
