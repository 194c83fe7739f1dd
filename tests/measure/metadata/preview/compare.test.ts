import sharp, { type Sharp } from 'sharp'
import { describe, expect, test } from 'vitest'
import { compare } from '../../../../src/measure/metadata/preview/compare.ts'
import { PORTRAIT_MARKS } from '../../../outside/portrait-marks.ts'
import { packageFolder } from '../../../outside/portraits.ts'
import { contrasting, decoded, drawn, part, rgb, SITTERS, spotted, thumbnail } from './pictures.ts'

const preview = async (picture: Buffer) => rgb(sharp(await thumbnail(picture)))
const [first, second] = SITTERS
if (!first || !second) throw new Error('The drawn set has no sitters.')

describe.each(SITTERS.map((sitter) => [sitter.name, sitter] as const))('drawn: %s', (_, sitter) => {
  test('the same', async () => {
    const picture = await drawn(sitter)
    expect(await compare(await preview(picture), await decoded(sharp(picture)))).toMatchObject({
      shows: 'same',
      doubt: null,
    })
  })

  test('cropped since', async () => {
    const picture = await drawn(sitter)
    const small = await preview(picture)
    for (const [x, y, width, height] of [
      [0.05, 0.05, 0.9, 0.9],
      [0, 0, 1, 0.8],
      [0.15, 0.05, 0.7, 0.56],
    ] as const) {
      const found = await compare(small, await decoded(await part(picture, x, y, width, height)))
      expect(found.shows).toBe('other-crop')
      expect(found.crop?.x).toBeCloseTo(x, 1.2)
      expect(found.crop?.y).toBeCloseTo(y, 1.2)
      expect(found.crop?.width).toBeCloseTo(width, 1.2)
      expect(found.crop?.height).toBeCloseTo(height, 1.2)
    }
  })

  test('backdrop added since', async () => {
    const picture = await drawn(sitter)
    const taller = sharp(picture).extend({ top: 50, background: '#f4f4f4' })
    const found = await compare(await preview(picture), await decoded(sharp(await taller.png().toBuffer())))
    expect(found.shows).toBe('other-crop')
    expect(found.crop?.y).toBeCloseTo(-0.1, 1)
    expect(found.crop?.height).toBeCloseTo(1.1, 1)
  })

  test('retouched since', async () => {
    const picture = await drawn(sitter)
    const before = await spotted(picture, 0.92, 0.15, 0.05, await contrasting(picture, 0.92, 0.15))
    const found = await compare(await preview(before), await decoded(sharp(picture)))
    expect(found.shows).toBe('other-retouch')
    expect(found.changedPct).toBeLessThan(2)
    const box = found.changed
    expect(box && box.x + box.width / 2).toBeCloseTo(0.92, 1)
    expect(box && box.y + box.height / 2).toBeCloseTo(0.15, 1)
  })

  test('another frame of the same sitter', async () => {
    const other = await drawn(sitter, {
      moment: { smile: 1, mouthOpen: 0.6, turnDeg: 20 },
      offsetX: (sitter.frame.offsetX ?? 0) + 0.04,
    })
    const found = await compare(await preview(other), await decoded(sharp(await drawn(sitter))))
    expect(['other-retouch', 'other-crop', 'other-picture']).toContain(found.shows)
  })
})

describe('turned', () => {
  test.each([
    ['rotated by 90° clockwise', (image: Sharp) => image.rotate(90)],
    ['rotated by 180°', (image: Sharp) => image.rotate(180)],
    ['rotated by 90° counterclockwise', (image: Sharp) => image.rotate(270)],
    ['mirrored left to right', (image: Sharp) => image.flop()],
  ] as const)('%s', async (turn, change) => {
    const picture = await drawn(first)
    const found = await compare(await preview(picture), await decoded(change(sharp(picture))))
    expect(found).toMatchObject({ shows: 'turned', turn })
  })
})

test('graded since', async () => {
  const picture = await drawn(first)
  const before = await sharp(picture).linear([1, 0.9, 0.6], [0, 0, 0]).png().toBuffer()
  const found = await compare(await preview(before), await decoded(sharp(picture)))
  expect(found.shows).toBe('other-tones')
})

test('somebody else', async () => {
  const found = await compare(await preview(await drawn(first)), await decoded(sharp(await drawn(second))))
  expect(found.shows).toBe('other-picture')
})

test('black bars around the same picture are no other crop', async () => {
  for (const picture of [
    await drawn(first),
    await (await part(await drawn(first), 0, 0, 1, 0.5)).png().toBuffer(),
  ]) {
    const barred = await sharp(picture)
      .resize(160, 120, { fit: 'contain', background: '#000' })
      .jpeg()
      .toBuffer()
    expect((await compare(await rgb(sharp(barred)), await decoded(sharp(picture)))).shows).toBe('same')
  }
})

test('squeezed into another shape, as cameras do that have one size for all, is the same', async () => {
  const picture = await drawn(first)
  const squeezed = await sharp(picture).resize(128, 150, { fit: 'fill' }).jpeg().toBuffer()
  expect((await compare(await rgb(sharp(squeezed)), await decoded(sharp(picture)))).shows).toBe('same')
})

describe('in doubt', () => {
  test('too small', async () => {
    const picture = await drawn(first)
    const tiny = await rgb(sharp(picture).resize(25, 31))
    expect(await compare(tiny, await decoded(sharp(picture)))).toMatchObject({
      shows: null,
      doubt: 'too-small',
    })
  })

  test('nothing to see', async () => {
    const flat = sharp({ create: { width: 120, height: 150, channels: 3, background: '#eee' } })
    expect(await compare(await rgb(flat), await decoded(flat))).toMatchObject({ shows: null, doubt: 'flat' })
  })
})

// Photographs of public packages, see tests/outside/portraits.ts.
describe('photographs', () => {
  const real = PORTRAIT_MARKS.filter((_, index) => index % 5 === 0)
  test.each(real.map((mark) => [`${mark.source}: ${mark.path}`, mark] as const))(
    '%s',
    async (_, { source, path }) => {
      const picture = await sharp(`${await packageFolder(source)}/${path}`)
        .png()
        .toBuffer()
      const small = await preview(picture)
      expect((await compare(small, await decoded(sharp(picture)))).shows).toBe('same')
      const cropped = await compare(small, await decoded(await part(picture, 0.05, 0.05, 0.9, 0.9)))
      expect(cropped.shows).toBe('other-crop')
      expect(cropped.crop?.width).toBeCloseTo(0.9, 1.2)
      const color = await contrasting(picture, 0.5, 0.5)
      const before = await preview(await spotted(picture, 0.5, 0.5, 0.06, color))
      expect((await compare(before, await decoded(sharp(picture)))).shows).toBe('other-retouch')
    },
  )
})
