import sharp from 'sharp'
import { beforeAll, expect, test } from 'vitest'
import { readSegments } from '../../../../src/measure/file/bytes/segments.ts'
import { readContainer } from '../../../../src/measure/file/container/container.ts'
import { sniff } from '../../../../src/measure/file/container/sniff.ts'
import { decoder } from '../../../../src/measure/file/decoder.ts'
import { readPlainHeader } from '../../../../src/measure/file/jpeg/plain-header.ts'
import { mutant } from '../../../long/fuzz/mutant.ts'
import { drawOriginals, type Original } from '../../../long/fuzz/originals.ts'
import { segment } from '../bytes/jpeg-writer.ts'
import { exifSegment, short, writeExif } from '../exif/exif-writer.ts'

// Beside the decoder itself (libjpeg-turbo in libvips): whatever is read without it, it must say too.
const SEED = 20261125
const SPOILED = 3000

let jpegs: readonly Original[] = []
beforeAll(async () => {
  jpegs = (await drawOriginals()).filter(({ format }) => format === 'jpeg')
})

const plainOf = (jpeg: Buffer) => readPlainHeader(jpeg, readSegments(jpeg))

/** What the decoder says of the same header; its complaint when it refuses it. */
async function decoders(jpeg: Buffer) {
  try {
    const { width, height, channels, orientation, space, hasAlpha, exif, bitsPerSample } = await decoder(
      jpeg,
      { limitInputPixels: false },
    ).metadata()
    const told = { width, height, channels, orientationTag: orientation ?? null }
    return { ...told, exif: exif?.subarray(6).toString('hex') ?? null, space, hasAlpha, bitsPerSample }
  } catch (error) {
    return String(error)
  }
}

function expected(jpeg: Buffer) {
  const plain = plainOf(jpeg)
  if (!plain) throw new Error('no plain header')
  return {
    ...plain,
    exif: plain.exif?.toString('hex') ?? null,
    space: plain.channels === 1 ? 'b-w' : 'srgb',
    hasAlpha: false,
    bitsPerSample: undefined,
  }
}

test('most whole files are plain', () => {
  const plain = jpegs.filter(({ content }) => plainOf(content) !== null)
  expect(jpegs.length).toBeGreaterThanOrEqual(5)
  expect(plain.length / jpegs.length).toBeGreaterThan(0.5)
})

const EXIF_8 = exifSegment(writeExif({ main: [short(0x112, 8)] }))

async function withBlock(place: 'front' | 'end', exif: Buffer): Promise<Buffer> {
  const bare = await sharp({ create: { width: 64, height: 48, channels: 3, background: '#987' } })
    .jpeg()
    .toBuffer()
  const at = place === 'front' ? 2 : bare.length - 2
  return Buffer.concat([bare.subarray(0, at), segment(0xe1, exif), bare.subarray(at)])
}

test('an orientation that stands twice is left to the decoder', async () => {
  const twice = writeExif({ main: [short(0x112, 8), short(0x112, 1)] })
  expect(plainOf(await withBlock('front', exifSegment(twice)))).toBeNull()
})

test.each([
  ['in the header counts', 'front', 8],
  ['behind the scan is not of the header', 'end', null],
] as const)('an Exif block %s', async (_, place, orientationTag) => {
  const content = await withBlock(place, EXIF_8)
  expect(await decoders(content)).toEqual(expected(content))
  expect(plainOf(content)?.orientationTag).toBe(orientationTag)
})

test(`of ${SPOILED} spoiled files, what is plain the decoder takes just so`, async () => {
  let compared = 0
  const apart: string[] = []
  for (let number = 0; number < SPOILED; number++) {
    const { content, by, original } = mutant(number, SEED, jpegs)
    if (sniff(content) !== 'jpeg' || readContainer('jpeg', content).excess !== null || !plainOf(content))
      continue
    compared++
    const told = await decoders(content)
    const ours = expected(content)
    if (JSON.stringify(told) !== JSON.stringify(ours))
      apart.push(
        `${number}, ${original.name} ${by}: ${JSON.stringify(told).slice(0, 300)} and not ${JSON.stringify(ours).slice(0, 200)}`,
      )
  }
  expect(compared).toBeGreaterThan(SPOILED / 10)
  expect(apart).toEqual([])
})
