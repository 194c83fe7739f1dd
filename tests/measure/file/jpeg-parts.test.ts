import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { readImage } from '../../../src/measure/file/image.ts'
import {
  BACKDROP_LONG_EDGE_PX,
  DamagedPicture,
  FACE_LONG_EDGE_PX,
} from '../../../src/measure/file/picture-parts.ts'
import { LIMITS } from '../../../src/measure/file/read-file.ts'
import { copyOf } from '../../../src/measure/file/working-copy.ts'
import { seeded } from '../../random.ts'
import { noise } from '../samples.ts'

const WHOLE = { decode: true, limits: LIMITS }
const IN_PARTS = { ...WHOLE, inParts: true }

const KINDS = [
  ['4:2:0', { chromaSubsampling: '4:2:0' }],
  ['4:4:4', { chromaSubsampling: '4:4:4' }],
  ['progressive', { progressive: true }],
] as const

describe.each(KINDS)('a JPEG in parts, %s', (_, options) => {
  test.each([1, 2, 3, 4, 5, 6, 7, 8])(
    'orientation %i: a rectangle has the pixels that the whole has there',
    async (orientation) => {
      const jpeg = await noise(121, 150).withMetadata({ orientation }).jpeg(options).toBuffer()
      const { pixels } = await readImage(jpeg, 'jpeg', WHOLE)
      const { parts } = await readImage(jpeg, 'jpeg', IN_PARTS)
      if (!pixels || !parts) throw new Error('It was not decoded.')
      const { data, ...part } = await parts.near({ left: 10.4, top: 20.6, width: 50, height: 60.5 })
      expect(part).toEqual({ left: 10, top: 20, width: 51, height: 62 })
      const same = await sharp(pixels.data, {
        raw: { width: pixels.width, height: pixels.height, channels: 3 },
      })
        .extract(part)
        .raw()
        .toBuffer()
      expect(same.equals(data)).toBe(true)
    },
  )
})

test('a rectangle beyond the picture ends where it ends', async () => {
  const { parts } = await readImage(await noise(40, 30).jpeg().toBuffer(), 'jpeg', IN_PARTS)
  expect(await parts?.near({ left: -9, top: 20, width: 99, height: 99 })).toMatchObject({
    ...{ left: 0, top: 20, width: 40, height: 10 },
  })
})

/** Root mean square of the difference, codes. */
function difference(one: Uint8Array, other: Uint8Array): number {
  expect(one).toHaveLength(other.length)
  let squares = 0
  for (let i = 0; i < one.length; i++) squares += ((one[i] as number) - (other[i] as number)) ** 2
  return Math.sqrt(squares / one.length)
}

test.each([1, 6])(
  'copies are as the picture library makes them of the whole, orientation %i',
  async (orientation) => {
    // Nothing in it is finer than 10 px, as in a face in a frame of 3,000 px.
    const coarse = await noise(200, 300).png().toBuffer()
    const jpeg = await sharp(coarse)
      .resize(2000, 3000, { kernel: 'cubic' })
      .withMetadata({ orientation })
      .jpeg({ quality: 92 })
      .toBuffer()
    const { pixels } = await readImage(jpeg, 'jpeg', WHOLE)
    const { parts } = await readImage(jpeg, 'jpeg', IN_PARTS)
    if (!pixels || !parts) throw new Error('It was not decoded.')
    for (const [edge, most] of [
      [FACE_LONG_EDGE_PX, 1],
      [BACKDROP_LONG_EDGE_PX, 2],
    ] as const) {
      const [own, library] = [await parts.copy(edge), copyOf(pixels, edge)]
      expect([own.width, own.height]).toEqual([library.width, library.height])
      expect(difference(own.data, library.data), `${edge} px`).toBeLessThan(most)
    }
  },
)

/** What disks, copies and transfers leave, at a place of the file. */
const DAMAGE: readonly ((jpeg: Buffer, at: number) => Buffer)[] = [
  (jpeg, at) => Buffer.from(jpeg).fill(0, at, Math.min(jpeg.length, at + 2048)),
  (jpeg, at) => Buffer.concat([jpeg.subarray(0, at), Buffer.of(0xff, 0xd9)]),
  (jpeg, at) => Buffer.from(jpeg).fill('\xff\x81', at, at + 2, 'latin1'),
  (jpeg, at) => Buffer.from(jpeg).fill(jpeg.readUInt8(at) ^ 16, at, at + 1),
]

test('damage is seen as decoding the whole shows it', async () => {
  const random = seeded(17)
  for (const [kind, options] of KINDS) {
    const jpeg = await noise(400, 480).jpeg(options).toBuffer()
    let damaged = 0
    for (let n = 0; n < 24; n++) {
      const spoil = DAMAGE[n % DAMAGE.length]
      const spoiled = spoil?.(jpeg, Math.floor(jpeg.length * (0.3 + 0.69 * random()))) ?? jpeg
      const whole = await readImage(spoiled, 'jpeg', WHOLE)
      if (whole.fault) damaged++
      const place = n % 2 === 0 ? null : { left: 100, top: 50, width: 100, height: 100 }
      const { fault, parts } = await readImage(spoiled, 'jpeg', IN_PARTS)
      const refused =
        fault !== null ||
        (await parts?.near(place).then(
          () => false,
          (error: unknown) => error instanceof DamagedPicture,
        ))
      expect(refused, `${kind}, ${n}`).toBe(whole.fault !== null)
    }
    expect(damaged, kind).toBeGreaterThan(9)
  }
})

test('a frame of one row, in gray, of another color space, and one that is smaller than its copies', async () => {
  for (const picture of [
    noise(64, 1),
    noise(90, 80).toColourspace('b-w'),
    noise(90, 80).toColourspace('cmyk'),
  ]) {
    const jpeg = await picture.jpeg().toBuffer()
    const { pixels } = await readImage(jpeg, 'jpeg', WHOLE)
    const { parts } = await readImage(jpeg, 'jpeg', IN_PARTS)
    const near = await parts?.near({ left: 0, top: 0, width: 999, height: 999 })
    expect(pixels?.data.equals(near?.data ?? Buffer.alloc(0))).toBe(true)
    expect((await parts?.copy(FACE_LONG_EDGE_PX))?.data).toHaveLength(pixels?.data.length ?? 0)
  }
})
