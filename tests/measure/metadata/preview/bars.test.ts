import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { withoutBars } from '../../../../src/measure/metadata/preview/bars.ts'
import { rgb } from './pictures.ts'

const placed = (x: number, y: number, width: number, height: number) => ({ x, y, width, height, score: 1 })

async function barred(background: string, left: number, right: number, top = 0, bottom = 0) {
  const gray = sharp({
    create: { width: 160 - left - right, height: 120 - top - bottom, channels: 3, background: '#888' },
  })
  const jpeg = await gray.extend({ left, right, top, bottom, background }).jpeg({ quality: 70 }).toBuffer()
  return rgb(sharp(jpeg))
}

describe('black bars', () => {
  test('left and right', async () => {
    const bare = withoutBars(await barred('#000', 32, 32), placed(0.2, 0, 0.6, 1))
    expect([bare?.width, bare?.height]).toEqual([96, 120])
    const edge = bare?.data.subarray(0, 3)
    for (const value of edge ?? []) expect(Math.abs(value - 136)).toBeLessThan(30)
  })
  test('above and below', async () => {
    const bare = withoutBars(await barred('#000', 0, 0, 7, 8), placed(0, 7 / 120, 1, 105 / 120))
    expect([bare?.width, bare?.height]).toEqual([160, 105])
  })
})

describe('no bars', () => {
  test.each([
    ['gray ones', '#555', [32, 32, 0, 0], placed(0.2, 0, 0.6, 1)],
    ['on one side', '#000', [32, 0, 0, 0], placed(0.2, 0, 0.8, 1)],
    ['all around', '#000', [32, 32, 20, 20], placed(0.2, 1 / 6, 0.6, 2 / 3)],
    ['where the whole preview is the picture', '#000', [0, 0, 0, 0], placed(0, 0, 1, 1)],
    ['where the picture is larger than the preview', '#000', [0, 0, 0, 0], placed(-0.2, -0.2, 1.4, 1.4)],
  ] as const)('%s', async (_, color, [left, right, top, bottom], found) => {
    expect(withoutBars(await barred(color, left, right, top, bottom), found)).toBeNull()
  })
})
