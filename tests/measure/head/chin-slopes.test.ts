import { describe, expect, test } from 'vitest'
import { AROUND, chinSlopes, REACH } from '../../../src/measure/head/chin-slopes.ts'
import { type Color, chinGeometry, painted } from './drawn-chin.ts'

const SKIN: Color = [205, 160, 135]
// The same reflectances in a quarter of the light: linear light x 0.25 (IEC 61966-2-1).
const SHADED: Color = [108, 82, 68]
// The mesh's chin is painted 100 units from the eyes, and that way is 200 cells long.
const LIKELY = 100
const CELL = LIKELY / 200

function slopesOf(
  color: (cellsDown: number) => Color,
  cell = 1.5,
  leanDeg = 0,
): readonly (readonly number[])[] {
  const landmarks = chinGeometry(cell, leanDeg)
  const picture = painted(landmarks, ({ along }) => color((along - LIKELY) / CELL))
  const { x, y } = landmarks.meshChin
  const mesh = Array.from({ length: 468 }, () => [x, y, 0] as const)
  return chinSlopes(picture, { mesh }, landmarks).slopes
}
const steepest = (slopes: readonly number[]) =>
  slopes.indexOf(slopes.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0)) - REACH - AROUND

describe('chinSlopes', () => {
  test.each([-25, -7, 0, 12, 27])('an edge lies where it was painted, %d cells down', (down) => {
    const slopes = slopesOf((at) => (at < down ? SKIN : SHADED))
    const [beside, , middle] = slopes
    for (const lightness of [beside, middle])
      expect(Math.abs(steepest(lightness ?? []) - down)).toBeLessThanOrEqual(1)
    expect(middle?.[REACH + AROUND + down]).toBeLessThan(0)
  })

  test.each([
    ['a small face', 0.7, 0],
    ['a large face', 2.4, 0],
    ['a leaning face', 1.5, 20],
  ])('in %s too', (_, cell, leanDeg) => {
    const [, , middle] = slopesOf((at) => (at < 6 ? SKIN : SHADED), cell, leanDeg)
    expect(Math.abs(steepest(middle ?? []) - 6)).toBeLessThanOrEqual(1)
  })

  test('the same edge on darker skin and in less light has the same slopes', () => {
    const light = slopesOf((at) => (at < 4 ? SKIN : SHADED))
    // A fifth of the light: linear light x 0.2.
    const dark = slopesOf((at) => (at < 4 ? [98, 74, 61] : [48, 34, 27]))
    for (const channel of [0, 2])
      for (const [i, slope] of (light[channel] ?? []).entries())
        expect(Math.abs(slope - (dark[channel]?.[i] ?? 9))).toBeLessThan(0.6)
  })

  test('even skin has none', () => {
    expect(
      Math.max(
        ...slopesOf(() => SKIN)
          .flat()
          .map(Math.abs),
      ),
    ).toBeLessThan(1e-9)
  })
})
