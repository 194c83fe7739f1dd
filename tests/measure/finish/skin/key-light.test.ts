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
const measured = (picture: ReturnType<typeof painted>) =>
  measureKeyLight(picture, sitter.located, sitter.face)

describe('measureKeyLight', () => {
  // By the decoding function of IEC 61966-2-1: one stop below code 230 is 168.8, half a stop 197.2.
  test.each([
    [230, 169, 'left', 1],
    [169, 230, 'right', 1],
    [197, 230, 'right', 0.5],
    [230, 230, 'none', 0],
  ] as const)('codes %i and %i', (left, right, side, stops) => {
    const { keySide, keyRatioStops, key } = measured(halves(left, right))
    expect(keySide).toBe(side)
    expect(Math.abs((keyRatioStops ?? 9) - stops)).toBeLessThan(0.01)
    expect(key).toEqual({ confidence: sitter.face.confidence, doubts: [] })
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
      key: { confidence: 0, doubts: ['no-face'] },
    })
  })
})
