import { describe, expect, test } from 'vitest'
import type { RgbPicture } from '../../../../src/imaging/rgb-picture.ts'
import type { Place } from '../../../../src/measure/face/irises/mesh-eyes.ts'
import { measureFocus } from '../../../../src/measure/finish/focus/eye-focus.ts'
import { gaussian } from '../../../random.ts'
import { blurred, discBlurred, drawnEyes } from './drawn-eyes.ts'
import { clamp, expectKnownBlurs, FACE, read } from './known-blurs.ts'

// About 80 and 400 px between the eyes. Blurs of less than half a pixel of the picture can't be made.
test.each([
  [2, 380, [2, 3, 4, 6]],
  [16, 380, [2, 3, 4, 6]],
  [8, 1900, [1, 2, 4, 6]],
  [13, 1900, [1, 2, 4, 6]],
])('sitter %i in a portrait %i px wide is read as well', async (index, width, sigmas) => {
  await expectKnownBlurs(await drawnEyes(index, width), sigmas, 0.1)
})

// A disc is no Gaussian: it reads softer than one of the same variance, but never sharper, and the more the larger it is.
test.each([1, 6, 13, 16])('sitter %i out of focus reads the softer the larger the disc', async (index) => {
  const eyes = await drawnEyes(index, 700)
  const own = read(eyes, eyes.picture)
  let before = own
  for (const radius of [2, 3, 4, 6, 8, 10, 12]) {
    const reading = read(eyes, discBlurred(eyes.picture, radius * eyes.scale))
    expect(reading, `${radius} px`).toBeGreaterThan(before)
    const same = Math.hypot(own, radius / 2)
    expect(reading / same, `${radius} px`).toBeGreaterThan(0.95)
    expect(reading / same, `${radius} px`).toBeLessThan(1.45)
    before = reading
  }
})

test('a soft eye and a sharp one: the sharper counts', async () => {
  const eyes = await drawnEyes(6)
  const soft = await blurred(eyes.picture, 3 * eyes.scale)
  const { width } = eyes.picture
  const middle = (eyes.irises[0][0] + eyes.irises[1][0]) / 2
  const data = eyes.picture.data.map((value, i) =>
    Math.floor(i / 3) % width < middle ? (soft.data[i] as number) : value,
  )
  const { eyePx, leftPx, rightPx } = measureFocus({ ...eyes.picture, data }, eyes.irises, [], FACE)
  expect(leftPx).toBeGreaterThan(2.5)
  expect(rightPx).toBeLessThan(1)
  expect(eyePx).toBe(rightPx)
})

test('the nose sharper than the eyes is told', async () => {
  const { picture, irises } = await drawnEyes(2)
  // Drawn noses are shaded softly: their own spread is 2 px.
  const soft = await blurred(picture, 6)
  const [left, right] = irises
  const eyeDistance = right[0] - left[0]
  const nose = [(left[0] + right[0]) / 2, left[1] + 0.6 * eyeDistance, 0] as const
  // Soft above the nose, sharp from there down.
  const data = picture.data.map((value, i) => {
    const y = Math.floor(i / 3 / picture.width)
    return y < nose[1] - 0.3 * eyeDistance ? (soft.data[i] as number) : value
  })
  const mesh = Array.from({ length: 468 }, () => nose)
  expect(measureFocus({ ...picture, data }, irises, mesh, FACE).sharperPlace).toBe('nose')
  expect(measureFocus(picture, irises, mesh, FACE).sharperPlace).toBeNull()
  expect(measureFocus(soft, irises, mesh, FACE).sharperPlace).toBeNull()
})

describe('nothing to read', () => {
  const noise = gaussian(5)
  const filled = (value: () => number): RgbPicture => ({
    data: Uint8Array.from({ length: 3 * 400 * 400 }, value),
    width: 400,
    height: 400,
  })
  const at = (left: number, right: number): [Place, Place] => [
    [left, 200],
    [right, 200],
  ]
  test.each([
    ['a flat face', filled(() => 128)],
    ['grain alone', filled(() => clamp(128 + 8 * noise()))],
  ])('%s has no edges', (_, picture) => {
    expect(measureFocus(picture, at(150, 250), [], FACE)).toMatchObject({
      eyePx: null,
      confidence: 0,
      doubts: ['eyes-without-edges'],
    })
  })
  test('eyes 20 px apart are too small', () => {
    expect(
      measureFocus(
        filled(() => 128),
        at(190, 210),
        [],
        FACE,
      ).doubts,
    ).toContain('eyes-too-small-for-focus')
  })
  test('eyes beyond the frame have no edges', () => {
    expect(
      measureFocus(
        filled(() => 128),
        at(-900, -800),
        [],
        FACE,
      ).doubts,
    ).toContain('eyes-without-edges')
  })
})
