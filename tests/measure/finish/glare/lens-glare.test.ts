import { beforeAll, describe, expect, test } from 'vitest'
import type { RgbPicture } from '../../../../src/imaging/rgb-picture.ts'
import { scaledFace } from '../../../../src/measure/face/placed-face.ts'
import { measureLensGlare, unknownGlare } from '../../../../src/measure/finish/glare/lens-glare.ts'
import { seeReflections } from '../../../../src/measure/finish/glare/see-reflections.ts'
import { painted, paintedEyes, type SitterFace, sitterFace } from '../../face/sitter-face.ts'
import type { Rgb } from '../../samples.ts'

let sitter: SitterFace
beforeAll(async () => {
  sitter = await sitterFace()
})

// Skin, white of the eye and iris, light and dark; a disc of one color on the eye at the right of the frame.
const LIGHT: Rgb = [232, 196, 176]
const DARK: Rgb = [74, 52, 42]
interface Scene {
  readonly skin?: Rgb
  readonly disc?: Rgb
  /** Radius and offset from the iris, in mm. */
  readonly radius?: number
  readonly offset?: readonly [number, number]
}
function scene({ skin = LIGHT, disc, radius = 0, offset = [0, 0] }: Scene) {
  const atEye = (eye: number, x: number, y: number): Rgb | undefined => {
    if (disc && eye === 1 && Math.hypot(x - offset[0], y - offset[1]) < radius) return disc
    if (Math.hypot(x, y) < 1.5) return [8, 8, 8]
    if (Math.hypot(x, y) < 5.8) return [70, 50, 40]
    return (x / 13) ** 2 + (y / 5) ** 2 < 1 ? [205, 200, 195] : undefined
  }
  return paintedEyes(sitter, atEye, () => skin)
}
const glareOf = (picture: RgbPicture, located = sitter.located, face = sitter.face) =>
  measureLensGlare(picture, seeReflections(picture, located), face)
const measured = (what: Scene) => glareOf(scene(what))

describe('measureLensGlare', () => {
  test.each([
    ['light', LIGHT],
    ['dark', DARK],
  ] as const)('bare eyes in %s skin have none', (_, skin) => {
    const { lensGlarePct, lensGlare } = measured({ skin })
    expect(lensGlarePct).toBe(0)
    expect(lensGlare).toMatchObject({ left: { box: null }, right: { box: null }, doubts: [] })
  })

  test.each([
    ['white on light skin', LIGHT, [255, 255, 255]],
    ['white on dark skin', DARK, [255, 255, 255]],
    ['a green coating on light skin', LIGHT, [200, 255, 225]],
    ['a blue coating on dark skin', DARK, [150, 190, 255]],
  ] as const)('a light over the eye, %s, is measured and placed', (_, skin, disc) => {
    const { lensGlarePct, lensGlare } = measured({ skin, disc, radius: 12 })
    const { left, right } = lensGlare
    expect(left?.glarePct).toBe(0)
    expect(lensGlarePct).toBe(right?.glarePct)
    expect(lensGlarePct).toBeGreaterThan(12)
    const [x, y] = sitter.located.irises[1]
    const box = right?.box
    if (!box) throw new Error('The glare has no box.')
    // The disc is 24 mm across; the region cuts a little off above and below.
    expect(Math.abs((box.width * 480) / sitter.mmPx - 24)).toBeLessThan(2.5)
    expect(Math.abs(((box.x + box.width / 2) * 480 - x) / sitter.mmPx)).toBeLessThan(1.5)
    expect(Math.abs(((box.y + box.height / 2) * 600 - y) / sitter.mmPx)).toBeLessThan(4)
  })

  test('twice the area is about twice the share', () => {
    const share = (radius: number) =>
      measured({ disc: [255, 255, 255], radius, offset: [0, 4] }).lensGlarePct ?? 0
    expect(share(10) / share(10 / Math.SQRT2)).toBeGreaterThan(1.6)
    expect(share(10) / share(10 / Math.SQRT2)).toBeLessThan(2.4)
  })

  test('a catchlight is none, and is counted', () => {
    const { lensGlarePct, lensGlare } = measured({ disc: [255, 255, 255], radius: 1.6, offset: [1, -1.5] })
    expect(lensGlarePct).toBe(0)
    expect(lensGlare.right?.catchlights).toBe(1)
    expect(lensGlare.left?.catchlights).toBe(0)
  })

  test.each([
    ['shadow of green make-up', [52, 74, 60]],
    ['a dark frame', [30, 28, 28]],
    ['redder skin', [226, 160, 140]],
  ] as const)('%s is none', (_, disc) => {
    expect(measured({ disc, radius: 12 }).lensGlarePct).toBe(0)
  })

  test('a picture in gray and dark lenses are in doubt', () => {
    expect(measured({ skin: [180, 180, 180] }).lensGlare.doubts).toEqual(['skin-colorless'])
    const { irises } = sitter.located
    const sunglasses = painted((x, y) =>
      irises.some(
        ([irisX, irisY]) => Math.hypot((x - irisX) / 28, (y - irisY - 2 * sitter.mmPx) / 22) < sitter.mmPx,
      )
        ? [22, 20, 20]
        : LIGHT,
    )
    const { lensGlare } = glareOf(sunglasses)
    expect(lensGlare.doubts).toEqual(['lenses-dark'])
    expect(lensGlare.confidence).toBeLessThan(0.5)
  })

  test('eyes too close together, turned or nodded far, are in doubt', () => {
    const doubts = (change: Partial<typeof sitter.face>, factor = 1) =>
      glareOf(scene({}), scaledFace(sitter.located, factor), { ...sitter.face, ...change }).lensGlare.doubts
    expect(doubts({ turnDeg: 36 })).toEqual(['face-turned'])
    expect(doubts({ turnDeg: -34, nodDeg: 19 })).toEqual([])
    expect(doubts({ nodDeg: -21 })).toEqual(['face-turned'])
    expect(doubts({}, 0.25)).toContain('eyes-too-small')
  })

  test('eyes outside the picture and no face are not measured', () => {
    const far = scaledFace(sitter.located, 100)
    expect(glareOf(scene({}), far)).toMatchObject({
      lensGlarePct: null,
      lensGlare: { left: null, confidence: 0, doubts: ['eyes-too-small'] },
    })
    expect(unknownGlare(['no-face']).lensGlare.doubts).toEqual(['no-face'])
  })
})
