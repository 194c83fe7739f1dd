import { beforeAll, expect, test } from 'vitest'
import { measureLensGlare } from '../../../../src/measure/finish/glare/lens-glare.ts'
import { seeReflections } from '../../../../src/measure/finish/glare/see-reflections.ts'
import { paintedEyes, type SitterFace, sitterFace } from '../../face/sitter-face.ts'
import type { Rgb } from '../../samples.ts'

let sitter: SitterFace
beforeAll(async () => {
  sitter = await sitterFace()
})

const WHITE: Rgb = [215, 212, 208]

/** Share of glare over the eye at the right of the frame, painted by the offset from where its iris was found, in mm. */
function glarePct(eyeball: (x: number, y: number) => Rgb): number {
  const atEye = (eye: number, x: number, y: number): Rgb | undefined => {
    if ((x / 13) ** 2 + (y / 5) ** 2 >= 1) return undefined
    if (eye === 1) return eyeball(x, y)
    return Math.hypot(x, y) < 5.8 ? [30, 20, 15] : WHITE
  }
  const picture = paintedEyes(sitter, atEye, () => [170, 120, 96])
  const { lensGlare } = measureLensGlare(picture, seeReflections(picture, sitter.located), sitter.face)
  return lensGlare.right?.glarePct ?? Number.NaN
}
const irisAt =
  (middle: number) =>
  (x: number, y: number): Rgb =>
    Math.hypot(x - middle, y) < 5.8 ? [30, 20, 15] : WHITE

test.each([0, 5.5, -5.5, -6.5])('a dark iris %f mm beside where it was found leaves no glare', (middle) => {
  expect(glarePct(irisAt(middle))).toBe(0)
})

test('a light over one half of the iris and the white beside it is glare', () => {
  expect(glarePct((x, y) => (x > 0 ? [255, 255, 255] : irisAt(0)(x, y)))).toBeGreaterThan(3)
})

test('a light over all of the iris is glare', () => {
  expect(glarePct((x, y) => (Math.hypot(x, y) < 6.5 ? [255, 255, 255] : WHITE))).toBeGreaterThan(3)
})
