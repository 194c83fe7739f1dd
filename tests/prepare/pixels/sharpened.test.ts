import { expect, test } from 'vitest'
import { detailOf, rgbOf, sharpened } from '../../../src/prepare/pixels/sharpened.ts'

const [WIDTH, HEIGHT] = [40, 12]
const SIZE = { widthPx: WIDTH, heightPx: HEIGHT }

/** An upright edge between two colors. */
const edge = (left: readonly number[], right: readonly number[]) => ({
  ...{ ...SIZE, channels: 3 as const, outOfGamut: 0 },
  codes: Uint8Array.from({ length: 3 * WIDTH * HEIGHT }, (_, n) => {
    const side = Math.floor(n / 3) % WIDTH < WIDTH / 2 ? left : right
    return side[n % 3] ?? 0
  }),
})

test('an edge overshoots by what a Gaussian blur takes away, the same in each channel; even areas stay', () => {
  const picture = edge([60, 80, 100], [160, 180, 200])
  const { codes } = sharpened(picture, detailOf(rgbOf(picture), 0.7), 1)
  const pixel = (x: number) => [...codes.slice(3 * (5 * WIDTH + x), 3 * (5 * WIDTH + x) + 3)]
  expect(pixel(5)).toEqual([60, 80, 100])
  expect(pixel(34)).toEqual([160, 180, 200])
  // Half a px from the edge of a step of 100: the weights of a Gaussian of 0.7 px beyond it, sampled, are 0.2155 of all.
  expect(pixel(19)).toEqual([38, 58, 78])
  expect(pixel(20)).toEqual([182, 202, 222])
})

test('16 bits and gray are sharpened alike, and nothing leaves the codes', () => {
  const gray = {
    ...{ ...SIZE, channels: 1 as const, outOfGamut: 0 },
    codes: Uint16Array.from({ length: WIDTH * HEIGHT }, (_, n) =>
      n % WIDTH < WIDTH / 2 ? 257 * 2 : 257 * 250,
    ),
  }
  const { codes } = sharpened(gray, detailOf(rgbOf(gray), 0.7), 1)
  expect(codes[5 * WIDTH + 19]).toBe(0)
  expect(codes[5 * WIDTH + 20]).toBe(65535)
  expect(codes[5 * WIDTH + 3]).toBe(257 * 2)
})
