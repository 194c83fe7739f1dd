import sharp from 'sharp'
import { beforeAll, describe, expect, test } from 'vitest'
import { drawPortrait } from '../../../examples/drawing/portrait.ts'
import { SITTERS } from '../../../examples/drawing/sitters.ts'
import { measureFocus } from '../../../src/measure/focus/eye-focus.ts'
import type { IrisCenter } from '../../../src/measure/iris-model.ts'
import type { Face } from '../../../src/measure/measurements.ts'
import type { RgbPicture } from '../../../src/measure/rgb-picture.ts'
import { gaussian } from '../../random.ts'
import { GOOD } from '../../rules/cases.ts'

const FACE = GOOD.face as Face
const WIDTH = 960
const HEIGHT = 1200

interface Drawn {
  readonly picture: RgbPicture
  readonly irises: readonly [IrisCenter, IrisCenter]
  readonly scale: number
}

async function drawn(index: number): Promise<Drawn> {
  const sitter = SITTERS[index]
  if (!sitter) throw new Error(`There is no sitter ${index}.`)
  const { pixels, truth } = await drawPortrait(sitter.look, {
    widthPx: WIDTH,
    heightPx: HEIGHT,
    placement: { crownY: 0.05, chinY: 0.68 },
    backdrop: { color: 244 },
    key: { side: 'left', ratioStops: 0.6 },
  })
  const irises = [truth.leftEye, truth.rightEye].map(({ x, y }): IrisCenter => [x * WIDTH, y * HEIGHT])
  return {
    picture: { data: pixels, width: WIDTH, height: HEIGHT },
    irises: irises as [IrisCenter, IrisCenter],
    scale: truth.eyeDistancePx / 240,
  }
}

async function blurred({ data, width, height }: RgbPicture, sigma: number): Promise<RgbPicture> {
  const blur = await sharp(data, { raw: { width, height, channels: 3 } })
    .blur(sigma)
    .raw()
    .toBuffer()
  return { data: blur, width, height }
}

// A sitter with thick spectacles, a dark and a light one, long hair and short: drawn eyes of every kind.
describe.each([0, 2, 8, 10, 20])('drawn eyes of sitter %i', (index) => {
  let sitter: Drawn
  const read = (picture: RgbPicture) => measureFocus(picture, sitter.irises, [], FACE).eyePx ?? Number.NaN
  beforeAll(async () => {
    sitter = await drawn(index)
  })

  test('rise with the blur, and are read within 21 % of it from 1 to 6 px, at least eight in ten within 15 %', async () => {
    let before = read(sitter.picture)
    const off: number[] = []
    for (const sigma of [1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 6]) {
      const reading = read(await blurred(sitter.picture, sigma * sitter.scale))
      off.push(Math.abs(reading / sigma - 1))
      expect(reading, `${sigma} px`).toBeGreaterThan(before)
      before = reading
    }
    expect(Math.max(...off)).toBeLessThan(0.21)
    expect(off.filter((error) => error > 0.15).length).toBeLessThanOrEqual(2)
  })

  test('grain of 4 codes and half as much unsharp masking again move the reading by less than 15 %', async () => {
    const soft = await blurred(sitter.picture, 1.5 * sitter.scale)
    const plain = read(soft)
    const random = gaussian(index + 1)
    const clamp = (value: number) => Math.max(0, Math.min(255, Math.round(value)))
    const grainy = { ...soft, data: soft.data.map((value) => clamp(value + 4 * random())) }
    expect(Math.abs(read(grainy) / plain - 1)).toBeLessThan(0.15)
    const halo = await blurred(soft, 1)
    const sharpened = {
      ...soft,
      data: soft.data.map((value, i) => clamp(value + 0.5 * (value - (halo.data[i] as number)))),
    }
    expect(Math.abs(read(sharpened) / plain - 1)).toBeLessThan(0.15)
  })
})

test('a picture enlarged to twice its size has no edge as fine as a pixel', async () => {
  const { picture, irises } = await drawn(2)
  expect(measureFocus(picture, irises, [], FACE).finestEdgePx).toBeLessThan(0.7)
  const { data, width, height } = picture
  const twice = await sharp(data, { raw: { width, height, channels: 3 } })
    .resize(2 * width, 2 * height, { kernel: 'lanczos3' })
    .raw()
    .toBuffer()
  const moved = irises.map(([x, y]): IrisCenter => [2 * x + 0.5, 2 * y + 0.5]) as [IrisCenter, IrisCenter]
  expect(
    measureFocus({ data: twice, width: 2 * width, height: 2 * height }, moved, [], FACE).finestEdgePx,
  ).toBeGreaterThan(0.9)
})

test('the nose sharper than the eyes is told', async () => {
  const { picture, irises } = await drawn(20)
  const soft = await blurred(picture, 4)
  const [left, right] = irises
  const eyeDistance = right[0] - left[0]
  const nose = [(left[0] + right[0]) / 2, left[1] + 0.6 * eyeDistance, 0] as const
  // Soft above the nose, sharp from there down.
  const data = picture.data.map((value, i) => {
    const y = Math.floor(i / 3 / WIDTH)
    return y < nose[1] - 0.3 * eyeDistance ? (soft.data[i] as number) : value
  })
  const mesh = Array.from({ length: 468 }, () => nose)
  expect(measureFocus({ ...picture, data }, irises, mesh, FACE).sharperPlace).toBe('nose')
  expect(measureFocus(picture, irises, mesh, FACE).sharperPlace).toBeNull()
})

test('a flat face has nothing to read', () => {
  const flat = { data: new Uint8Array(3 * 400 * 400).fill(128), width: 400, height: 400 }
  expect(
    measureFocus(
      flat,
      [
        [150, 200],
        [250, 200],
      ],
      [],
      FACE,
    ),
  ).toMatchObject({ eyePx: null, confidence: 0, doubts: ['eyes-without-edges'] })
  expect(
    measureFocus(
      flat,
      [
        [190, 200],
        [210, 200],
      ],
      [],
      FACE,
    ).doubts,
  ).toContain('eyes-too-small-for-focus')
})
