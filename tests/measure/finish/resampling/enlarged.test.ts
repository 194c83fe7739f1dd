import sharp, { type KernelEnum } from 'sharp'
import { describe, expect, test } from 'vitest'
import type { RgbPicture } from '../../../../src/imaging/rgb-picture.ts'
import { isEnlarged } from '../../../../src/measure/finish/resampling/enlarged.ts'
import { gaussian } from '../../../random.ts'

/** A picture whose power falls with the square of the frequency, as that of most does, with grain. */
async function drawn(size: number): Promise<RgbPicture> {
  const random = gaussian(11)
  const plane = new Float32Array(size * size)
  for (const sigma of [0, 1, 2, 4, 8, 16]) {
    const raw = Uint8Array.from({ length: size * size }, () =>
      Math.max(0, Math.min(255, Math.round(128 + 40 * random()))),
    )
    const image = sharp(raw, { raw: { width: size, height: size, channels: 1 } })
    const soft = await (sigma === 0 ? image : image.blur(sigma)).extractChannel(0).raw().toBuffer()
    // As strong at each scale.
    const strength = 0.12 * (sigma === 0 ? 0.3 : 2 * sigma)
    soft.forEach((value, i) => {
      plane[i] = (plane[i] as number) + strength * (value - 128)
    })
  }
  const data = new Uint8Array(3 * size * size)
  plane.forEach((value, i) => {
    data.fill(Math.max(0, Math.min(255, Math.round(128 + value))), 3 * i, 3 * i + 3)
  })
  return { data, width: size, height: size }
}

async function resized(
  { data, width, height }: RgbPicture,
  factor: number,
  kernel: keyof KernelEnum,
): Promise<RgbPicture> {
  const { data: raw, info } = await sharp(data, { raw: { width, height, channels: 3 } })
    .resize(Math.round(factor * width), Math.round(factor * height), { kernel })
    .raw()
    .toBuffer({ resolveWithObject: true })
  return { data: raw, width: info.width, height: info.height }
}

const found = (picture: RgbPicture) => isEnlarged(picture, { x: picture.width / 2, y: picture.height / 2 })

describe('isEnlarged', () => {
  test('a picture at its own size and made smaller is not', async () => {
    const picture = await drawn(640)
    expect(found(picture)).toBe(false)
    expect(found(await resized(picture, 0.8, 'lanczos3'))).toBe(false)
    expect(found(await resized(picture, 0.5, 'cubic'))).toBe(false)
  })

  test('made larger it is', async () => {
    expect(found(await resized(await drawn(480), 1.5, 'linear'))).toBe(true)
  })

  test('too few pixels tell nothing', async () => {
    expect(found(await drawn(240))).toBeNull()
  })

  test('a picture of one color is not', () => {
    const data = new Uint8Array(3 * 300 * 300).fill(200)
    expect(found({ data, width: 300, height: 300 })).toBe(false)
  })
})
