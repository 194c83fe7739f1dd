import sharp from 'sharp'
import { beforeAll, describe, expect, test } from 'vitest'
import { SITTERS } from '../../../../examples/drawing/sitters.ts'
import type { Place } from '../../../../src/measure/face/irises/mesh-eyes.ts'
import { measureFocus } from '../../../../src/measure/finish/focus/eye-focus.ts'
import { gaussian } from '../../../random.ts'
import { part } from '../../../sets.ts'
import { blurred, drawnEyes, type Eyes } from './drawn-eyes.ts'
import { clamp, expectKnownBlurs, FACE, read } from './known-blurs.ts'

const SIGMAS = [0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 6]

describe.each(part([...SITTERS.keys()], 10))('drawn eyes of sitter %i', (index) => {
  let eyes: Eyes
  beforeAll(async () => {
    eyes = await drawnEyes(index)
  })

  test('rise with the blur and are read within a tenth of it from 1 to 6 px', async () => {
    await expectKnownBlurs(eyes, SIGMAS, 0.1)
  })

  test.each([1, 1.5, 3])(
    'grain of 4 codes and half as much unsharp masking again hardly move %f px',
    async (sigma) => {
      const soft = await blurred(eyes.picture, sigma * eyes.scale)
      const plain = read(eyes, soft)
      const random = gaussian(index + 1)
      const grainy = { ...soft, data: soft.data.map((value) => clamp(value + 4 * random())) }
      expect(Math.abs(read(eyes, grainy) / plain - 1)).toBeLessThan(0.1)
      const halo = await blurred(soft, 1)
      const sharpened = {
        ...soft,
        data: soft.data.map((value, i) => clamp(value + 0.5 * (value - (halo.data[i] as number)))),
      }
      expect(Math.abs(read(eyes, sharpened) / plain - 1)).toBeLessThan(0.15)
    },
  )

  test('are as sharp as pixels show, and enlarged to twice the size are not', async () => {
    const { picture, irises } = eyes
    expect(measureFocus(picture, irises, [], FACE).finestEdgePx).toBeLessThan(0.6)
    const { data, width, height } = picture
    const twice = await sharp(data, { raw: { width, height, channels: 3 } })
      .resize(2 * width, 2 * height, { kernel: 'cubic' })
      .raw()
      .toBuffer()
    const moved = irises.map(([x, y]): Place => [2 * x + 0.5, 2 * y + 0.5]) as [Place, Place]
    const enlarged = { data: twice, width: 2 * width, height: 2 * height }
    expect(measureFocus(enlarged, moved, [], FACE).finestEdgePx).toBeGreaterThan(0.75)
  })
})
