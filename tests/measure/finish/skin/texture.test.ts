import { beforeAll, describe, expect, test } from 'vitest'
import type { RgbPicture } from '../../../../src/imaging/rgb-picture.ts'
import { scaledFace } from '../../../../src/measure/face/placed-face.ts'
import { measureSkinTexture } from '../../../../src/measure/finish/skin/texture.ts'
import { gaussian } from '../../../random.ts'
import { HEIGHT, type SitterFace, sitterFace, WIDTH } from '../../face/sitter-face.ts'
import type { Rgb } from '../../samples.ts'

// Large enough to read the skin of.
const TIMES = 2
let sitter: Pick<SitterFace, 'located' | 'face'>
let scale: number
beforeAll(async () => {
  const { located, face } = await sitterFace()
  sitter = { located: scaledFace(located, TIMES), face }
  const [left, right] = sitter.located.irises
  scale = Math.hypot(right[0] - left[0], right[1] - left[1]) / 240
})

const gray = (code: number): Rgb => {
  const whole = Math.max(0, Math.min(255, Math.round(code)))
  return [whole, whole, whole]
}
function painted(color: (x: number, y: number) => Rgb): RgbPicture {
  const [width, height] = [TIMES * WIDTH, TIMES * HEIGHT]
  const data = new Uint8Array(3 * width * height)
  for (let i = 0; i < width * height; i++) data.set(color(i % width, Math.floor(i / width)), 3 * i)
  return { data, width, height }
}
const textureOf = (color: (x: number, y: number) => Rgb) =>
  measureSkinTexture(painted(color), sitter.located, sitter.face)

/** Waves of so many px at 240 px between the eyes, across and down. */
const waves = (code: number, amplitude: number, period: number) => (x: number, y: number) =>
  gray(
    code +
      amplitude *
        (Math.sin((2 * Math.PI * x) / (period * scale)) + Math.sin((2 * Math.PI * y) / (period * scale))),
  )

describe('measureSkinTexture', () => {
  test('skin of one color has none', () => {
    expect(textureOf(() => gray(180)).skinTexturePct).toBeLessThan(0.001)
  })

  // The transform of a difference of Gaussians is that of theirs, exp(-2 pi² sigma² f²); a fourth of the finer octave's power is taken off.
  test.each([200, 120, 60])('waves are read as the formula has it, as a share of code %i', (code) => {
    const passed = (sigma: number) => Math.exp(-2 * (Math.PI * sigma) ** 2 * (1 / 9) ** 2)
    const [finest, fine, coarse] = [0.6, 1.2, 2.4].map(passed) as [number, number, number]
    const size = Math.sqrt((fine - coarse) ** 2 - (finest - fine) ** 2 / 4)
    const sums = Array.from({ length: 360 * 360 }, (_, i) =>
      Math.abs(Math.sin((Math.PI * (i % 360)) / 180) + Math.sin((Math.PI * Math.floor(i / 360)) / 180)),
    ).sort((a, b) => a - b)
    const expected = 4 * size * 1.4826 * (sums[sums.length / 2] as number)
    const { skinTexturePct, texture } = textureOf(waves(code, 0.04 * code, 9))
    expect(Math.abs((skinTexturePct ?? 0) / expected - 1)).toBeLessThan(0.15)
    expect(texture).toEqual({ confidence: sitter.face.confidence, doubts: [] })
  })

  test('what is wider than the texture does not count', () => {
    const [own = 0, wide = 9] = [9, 60].map((period) => textureOf(waves(150, 6, period)).skinTexturePct ?? 0)
    expect(wide).toBeLessThan(0.2 * own)
  })

  test('grain is no texture', () => {
    const random = gaussian(5)
    const grainy = textureOf(() => gray(150 + 3 * random())).skinTexturePct ?? 9
    const smooth = textureOf(waves(150, 1.5, 9)).skinTexturePct ?? 0
    expect(grainy).toBeLessThan(0.5 * smooth)
    const random2 = gaussian(6)
    const both = textureOf((x, y) => {
      const [code] = waves(150, 3, 9)(x, y)
      return gray(code + 3 * random2())
    })
    const alone = textureOf(waves(150, 3, 9)).skinTexturePct ?? 0
    expect(Math.abs((both.skinTexturePct ?? 0) / alone - 1)).toBeLessThan(0.15)
  })

  test('of grain on skin that is smooth grain and all, the whole is told and nothing left open', () => {
    const [plain, coarse] = [gaussian(7), gaussian(8)]
    const smooth = textureOf(() => gray(150 + 0.6 * plain()))
    expect(smooth.texture.doubts).toEqual([])
    expect(smooth.skinTexturePct).toBeGreaterThan(0)
    expect(smooth.skinTexturePct).toBeLessThan(0.2)
    expect(textureOf(() => gray(150 + 6 * coarse())).texture.doubts).toEqual(['skin-grainy'])
  })

  test('hair or a beard over three of five parts has no say', () => {
    const { mesh } = sitter.located
    const nose = mesh[1]?.[0] ?? Number.NaN
    const brow = mesh[9]?.[1] ?? Number.NaN
    const smooth = waves(150, 1.5, 9)
    const rough = waves(150, 60, 9)
    const own = textureOf(smooth).skinTexturePct ?? 0
    const bearded = textureOf((x, y) => (x > nose || y < brow + 1 ? rough(x, y) : smooth(x, y)))
    expect(bearded.skinTexturePct).toBeCloseTo(own, 1)
  })

  test('skin too dark for its codes, and skin too small', () => {
    expect(textureOf(() => gray(12))).toMatchObject({
      skinTexturePct: null,
      texture: { confidence: 0, doubts: ['skin-too-dark'] },
    })
    const small = scaledFace(sitter.located, 60 / (240 * scale))
    expect(
      measureSkinTexture(
        painted(() => gray(150)),
        small,
        sitter.face,
      ),
    ).toMatchObject({
      skinTexturePct: null,
      texture: { confidence: 0, doubts: ['skin-too-small'] },
    })
  })
})
