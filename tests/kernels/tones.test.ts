import { expect, test } from 'vitest'
import { lumaOf } from '../../src/color/luma.ts'
import { LINEAR_LIGHT, linearLight, srgbToLinear } from '../../src/color/transfer.ts'
import { lumaAt, lumaIn, luminanceIn } from '../../src/imaging/luminance.ts'
import { overRed, palePixels } from '../../src/kernels/tones.ts'
import { seeded } from '../random.ts'

const next = seeded(8)
const [width, height] = [37, 19]
const picture = {
  data: Uint8Array.from({ length: 3 * width * height }, () => Math.floor(256 * next())),
  width,
  height,
}
const part = { left: 5, top: 3, width: 21, height: 11 }
const pixels = Array.from(
  { length: part.width * part.height },
  (_, i) => (part.top + Math.floor(i / part.width)) * width + part.left + (i % part.width),
)

// To the last bit: the same steps in the same order, in double precision.
test('luma and luminance of a part are those of its pixels', () => {
  const lightAt = (i: number) => linearLight(picture.data[i] as number)
  const luminanceAt = (i: number) => lumaOf(lightAt(3 * i), lightAt(3 * i + 1), lightAt(3 * i + 2))
  expect(luminanceIn(picture, part)).toEqual(Float32Array.from(pixels, luminanceAt))
  expect(lumaIn(picture, part)).toEqual(Float32Array.from(pixels, (i) => lumaAt(picture, i)))
  expect(lumaIn(picture, { ...part, width: 0 })).toHaveLength(0)
})

test('green and blue over red', () => {
  const least = 0.01
  for (const channel of [1, 2] as const) {
    const expected = Float32Array.from({ length: width * height }, (_, i) => {
      const lightAt = (c: number) => linearLight(picture.data[3 * i + c] as number)
      return lightAt(channel) / Math.max(lightAt(0), least)
    })
    expect(overRed(picture, channel, LINEAR_LIGHT, least)).toEqual(expected)
  }
})

// Against the definition: the share of white is what a channel has above its share of red, over what white has above it.
test('what is paler than a color or far brighter, of what a mask covers', () => {
  const light = Float32Array.from({ length: 256 }, (_, code) => srgbToLinear(code / 255))
  const luminance = luminanceIn(picture, part)
  const mask = Uint8Array.from(pixels, () => Number(next() < 0.7))
  const limits = { leastShare: 0.1, leastPale: 0.3, leastBright: 0.6 }
  const expected = pixels.map((pixel, i) => {
    const lightAt = (channel: number) => light[picture.data[3 * pixel + channel] as number] as number
    const share = Math.max((lightAt(1) - 0.6 * lightAt(0)) * 2.5, (lightAt(2) - 0.4 * lightAt(0)) * 2)
    const bright = luminance[i] as number
    const isPale = share > limits.leastShare && bright > limits.leastPale
    return Number(mask[i] === 1 && (isPale || bright > limits.leastBright))
  })
  const color = { green: 0.6, perGreen: 2.5, blue: 0.4, perBlue: 2, ...limits }
  expect([...palePixels(picture, part, mask, luminance, light, color)]).toEqual(expected)
  expect(new Set(expected).size).toBe(2)
})
