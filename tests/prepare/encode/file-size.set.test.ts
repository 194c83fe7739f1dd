import sharp from 'sharp'
import { beforeAll, describe, expect, test } from 'vitest'
import { SITTERS } from '../../../examples/drawing/sitters.ts'
import { encode } from '../../../src/prepare/encode/encode.ts'
import { type Encoding, encodedAt } from '../../../src/prepare/encode/encoded-at.ts'
import { lumaErrors, shown } from '../../../src/prepare/encode/luma.ts'
import { THOROUGH, USUAL } from '../../../src/prepare/encode/manners.ts'
import type { Finished } from '../../../src/prepare/pixels/resample.ts'
import { drawnPortrait } from '../../drawn.ts'
import { seeded } from '../../random.ts'
import { part, partOf } from '../../sets.ts'

const BLOCKS = {
  ...{ icc: Buffer.alloc(500), exif: Buffer.alloc(0), xmp: Buffer.alloc(0), iim: Buffer.alloc(0) },
  ...{ ppi: null, entries: { main: [], exif: [] } },
}
const QUALITY = { min: 50, max: 100 }

let master: Buffer
beforeAll(async () => {
  const look = SITTERS[0]?.look
  if (!look) throw new Error('There is no sitter.')
  const { pixels, widthPx, heightPx } = await drawnPortrait(look, {
    ...{ widthPx: 640, heightPx: 720, placement: { crownY: 0.16, chinY: 0.56 }, noise: 2.5 },
    ...{ backdrop: { color: 245 }, key: { side: 'left', ratioStops: 0.6 } },
  })
  master = await sharp(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .png({ compressionLevel: 1 })
    .toBuffer()
})

/** 100 files: another crop, size, sampling and limit each, of the bytes of quality 70 to those of 98. */
const CASES = Array.from({ length: 100 }, (_, n) => n)

async function drawn(n: number, format: Encoding['format']) {
  const random = seeded(n + 1)
  const width = 320 + Math.round(240 * random())
  const height = Math.round(1.25 * width)
  const small = { widthPx: 100 + Math.round(140 * random()), heightPx: 0 }
  const size = { ...small, heightPx: Math.round(1.25 * small.widthPx) }
  const codes = await sharp(master)
    .extract({
      ...{ width, height },
      left: Math.round((640 - width) * random()),
      top: Math.round((720 - height) * random()),
    })
    .resize(size.widthPx, size.heightPx)
    .raw()
    .toBuffer()
  const picture: Finished = { ...size, codes, channels: 3, outOfGamut: 0 }
  const encoding: Encoding = {
    ...{ format, subsampling: n % 2 === 0 ? '4:4:4' : '4:2:0', progressive: n % 3 === 0, tiff: 'lzw' },
  }
  const at = (value: number, manner = USUAL) => encodedAt(picture, encoding, BLOCKS, value, manner)
  const [least, most] = [(await at(70)).length, (await at(98)).length]
  const mostBytes = Math.round(least * (most / least) ** random())
  return { picture, encoding, mostBytes, at }
}

const errorOf = async (bytes: Buffer, picture: Finished) =>
  lumaErrors(await shown(bytes, picture), picture).reduce((sum, value) => sum + value, 0)

/** How much of the limit each file leaves, %, and by how many times it is off as far as what the highest quality gives, encoded as usual. */
async function found(cases: readonly number[], format: Encoding['format']) {
  const files: { unused: number; times: number }[] = []
  for (const n of cases) {
    const { picture, encoding, mostBytes, at } = await drawn(n, format)
    const { bytes, tooLarge, quality } = await encode(picture, encoding, BLOCKS, {
      quality: QUALITY,
      mostBytes,
    })
    expect(tooLarge).toBe(false)
    let usual = bytes
    for (let value = Math.min((quality ?? 0) + 2, 100); value > 40; value--) {
      usual = await at(value)
      if (usual.length <= mostBytes) break
    }
    const times = (await errorOf(bytes, picture)) / (await errorOf(usual, picture))
    files.push({ unused: 100 * (1 - bytes.length / mostBytes), times })
  }
  return files
}

describe('JPEGs with a limit', () => {
  test('are below it, by 3 % at most', async () => {
    const files = await found(part(CASES, 12), 'jpeg')
    expect(files.length).toBeGreaterThanOrEqual(partOf(100, 12))
    for (const { unused, times } of files) {
      expect(unused).toBeGreaterThanOrEqual(0)
      expect(unused).toBeLessThanOrEqual(3)
      expect(times).toBeLessThanOrEqual(1.05)
    }
  })

  test('are nearer to the picture than what any whole quality gives, with trellis quantization or without', async () => {
    for (const n of part(CASES.slice(0, 20), 10)) {
      const { picture, encoding, mostBytes, at } = await drawn(n, 'jpeg')
      const { bytes, quality } = await encode(picture, encoding, BLOCKS, { quality: QUALITY, mostBytes })
      const error = await errorOf(bytes, picture)
      const others: number[] = []
      for (const manner of [USUAL, THOROUGH])
        for (let value = (quality ?? 0) - 6; value <= Math.min((quality ?? 0) + 1, 100); value++) {
          const other = await at(value, manner)
          if (other.length <= mostBytes) others.push(await errorOf(other, picture))
        }
      expect(Math.min(...others)).toBeGreaterThanOrEqual(error)
    }
  })
})

// What is left over then brings more in no way of encoding that is tried.
test('WebP files with a limit are below it, most by 3 % at most, and nearer to the picture than the highest quality as usual', async () => {
  const files = await found(part(CASES.slice(0, 24), 12), 'webp')
  expect(files.length).toBeGreaterThanOrEqual(partOf(24, 12))
  for (const { unused, times } of files) {
    expect(unused).toBeGreaterThanOrEqual(0)
    expect(unused).toBeLessThan(12)
    expect(times).toBeLessThanOrEqual(1.02)
  }
  const over = files.filter(({ unused }) => unused > 3).length
  expect(over).toBeLessThanOrEqual(Math.max(1, files.length / 5))
})
