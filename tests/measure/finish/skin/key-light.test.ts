import { beforeAll, describe, expect, test } from 'vitest'
import { scaledFace } from '../../../../src/measure/face/placed-face.ts'
import { measureKeyLight, unknownKey } from '../../../../src/measure/finish/skin/key-light.ts'
import { HEIGHT, painted, sitterFace, WIDTH } from '../../face/sitter-face.ts'
import type { Rgb } from '../../samples.ts'

let sitter: Awaited<ReturnType<typeof sitterFace>>
beforeAll(async () => {
  sitter = await sitterFace()
})

const gray = (code: number): Rgb => [code, code, code]
const halves = (left: number, right: number) => painted((x) => gray(x < WIDTH / 2 ? left : right))
/** Code of linear light (IEC 61966-2-1). */
const encoded = (light: number) =>
  Math.round(255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055))
/**
 * A face of one color, brighter at the right by so many stops between the cheeks and less between the halves of forehead and chin.
 * @param shine white light that is added at the brighter side
 */
function lit(stops: number, color: Rgb, shine = 0) {
  const { irises, mesh } = sitter.located
  const mouth = mesh[14]?.[1] ?? Number.NaN
  return painted((x, y) => {
    const share = y < irises[0][1] ? 0.92 : y > mouth ? 0.8 : 1
    const isRight = x >= WIDTH / 2
    const light = 0.3 * 2 ** (((isRight ? 1 : -1) * stops * share) / 2)
    const [red, green, blue] = color.map((part) => encoded(light * part + (isRight ? shine : 0)))
    return [red as number, green as number, blue as number]
  })
}
const measured = (picture: ReturnType<typeof painted>) =>
  measureKeyLight(picture, sitter.located, sitter.face)

describe('measureKeyLight', () => {
  test.each([
    [1, 'right'],
    [-1, 'left'],
    [0.5, 'right'],
    [0, 'none'],
  ] as const)('%f stops', (stops, side) => {
    const { keySide, keyRatioStops, keyRatioErrorStops, key } = measured(lit(stops, [1, 1, 1]))
    expect(keySide).toBe(side)
    expect(Math.abs((keyRatioStops ?? 9) - Math.abs(stops))).toBeLessThan(0.02)
    expect(keyRatioErrorStops).toBeGreaterThan(0.13)
    expect(keyRatioErrorStops).toBeLessThan(0.16)
    expect(key).toEqual({ confidence: sitter.face.confidence, doubts: [] })
  })

  // White light added to skin, as by a lamp that oil mirrors: the dichromatic model's interface reflection.
  test('white shine on one whole side changes nothing', () => {
    const skin: Rgb = [1, 0.55, 0.35]
    const { keyRatioStops } = measured(lit(0.5, skin, 0.08))
    // In luminance it is 0.9 stop; what is left is the rounding to codes.
    expect(Math.abs((keyRatioStops ?? 9) - 0.5)).toBeLessThan(0.05)
  })

  test('where parts disagree the error grows', () => {
    const { keyRatioErrorStops } = measured(halves(230, 150))
    expect(keyRatioErrorStops).toBeGreaterThan(0.2)
  })

  test('shine and stubble on a fifth of a cheek do not count', () => {
    const picture = painted((x, y) => (x < WIDTH / 2 && (x + 3 * y) % 5 === 0 ? gray(255) : gray(150)))
    expect(measured(picture)).toMatchObject({ keySide: 'none', key: { doubts: [] } })
  })

  test.each([
    [
      'hair over half of a cheek',
      painted((x, y) => gray(x > WIDTH / 2 && y % 6 < 3 ? 20 : 170)),
      'cheek-covered',
    ],
    ['skin of hardly any light', halves(9, 14), 'skin-too-dark'],
    ['no light at all', halves(0, 0), 'skin-too-dark'],
  ] as const)('%s is in doubt', (_, picture, doubt) => {
    const { key, keyRatioStops } = measured(picture)
    expect(key.doubts).toContain(doubt)
    expect(key.confidence).toBeLessThan(0.5)
    expect(keyRatioStops).not.toBeNaN()
  })

  test('a turned head is in doubt, one turned a little is not', () => {
    const turned = (turnDeg: number) =>
      measureKeyLight(halves(200, 150), sitter.located, { ...sitter.face, turnDeg }).key.doubts
    expect(turned(-29)).toEqual(['face-turned'])
    expect(turned(27)).toEqual([])
  })

  test('a face of a few pixels, or one outside the picture, is not measured', () => {
    const small = scaledFace(sitter.located, 0.05)
    const { keySide, key } = measureKeyLight(halves(200, 150), small, sitter.face)
    expect(keySide).toBeNull()
    expect(key).toEqual({ confidence: 0, doubts: ['skin-too-small'] })
    const far = scaledFace(sitter.located, HEIGHT)
    expect(measureKeyLight(halves(200, 150), far, sitter.face).key.confidence).toBe(0)
  })

  test('no face is no measurement', () => {
    expect(unknownKey(['no-face'])).toEqual({
      keySide: null,
      keyRatioStops: null,
      keyRatioErrorStops: null,
      key: { confidence: 0, doubts: ['no-face'] },
    })
  })
})
