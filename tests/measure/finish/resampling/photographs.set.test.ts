import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import sharp, { type KernelEnum } from 'sharp'
import { beforeAll, describe, expect, test } from 'vitest'
import type { RgbPicture } from '../../../../src/imaging/rgb-picture.ts'
import { decodePicture } from '../../../../src/measure/file/decode.ts'
import { isEnlarged } from '../../../../src/measure/finish/resampling/enlarged.ts'
import { packageFolder } from '../../../outside/portraits.ts'
import { part, partOf } from '../../../sets.ts'

const soft = (name: string) => ['soft-ui-design-system', `assets/img/${name}.jpg`] as const

// Photographs of people of 800 px and more.
const PHOTOGRAPHS = [
  ...['team-1', 'team-3', 'marie', 'kal-visuals-square', 'ivana-square', 'bruce-mars', 'jordan', 'charles'],
  ...['brooke', 'kal-visuals', 'ivana'],
].map(soft)
const QUALITIES = [95, 90, 80]

interface Photograph {
  readonly picture: RgbPicture
  readonly quality: number
}

async function resized({ picture, quality }: Photograph, factor: number, kernel: keyof KernelEnum) {
  const { data, width, height } = picture
  const file = await sharp(data, { raw: { width, height, channels: 3 } })
    .resize(Math.round(factor * width), Math.round(factor * height), { kernel, fit: 'fill' })
    .jpeg({ quality })
    .toBuffer()
  return found(await decodePicture(file, 1e8))
}

function found(picture: RgbPicture) {
  return isEnlarged(picture, { x: picture.width / 2, y: picture.height / 2 })
}

describe('photographs of a package', () => {
  const photographs: Photograph[] = []
  beforeAll(async () => {
    for (const [i, [source, path]] of part(PHOTOGRAPHS, 4).entries()) {
      const picture = await decodePicture(await readFile(join(await packageFolder(source), path)), 1e8)
      photographs.push({ picture, quality: QUALITIES[i % QUALITIES.length] as number })
    }
  })

  test('are not enlarged, nor saved again', async () => {
    for (const one of photographs) {
      expect(found(one.picture)).toBe(false)
      expect(await resized(one, 1, 'cubic')).toBe(false)
    }
  })

  // libvips blurs them as it makes them smaller, as all good programs do.
  test.each([0.5, 0.75, 0.9] as const)('made smaller, %f times, are not', async (factor) => {
    for (const one of photographs) expect(await resized(one, factor, 'lanczos3')).toBe(false)
  })

  test('that are only soft are not', async () => {
    for (const { picture, quality } of photographs) {
      const { data, width, height } = picture
      const file = await sharp(data, { raw: { width, height, channels: 3 } })
        .blur({ sigma: 1.2, minAmplitude: 0.01 })
        .jpeg({ quality })
        .toBuffer()
      expect(found(await decodePicture(file, 1e8))).toBe(false)
    }
  })

  test.each([
    [1.25, 'cubic', 7],
    [1.5, 'lanczos3', 9],
    [1.5, 'linear', 9],
    [2, 'cubic', 9],
  ] as const)('made larger, %f times, are found: %s', async (factor, kernel, atLeast) => {
    let count = 0
    for (const one of photographs) if (await resized(one, factor, kernel)) count++
    expect(count).toBeGreaterThanOrEqual(partOf(atLeast, 4))
  })
})
