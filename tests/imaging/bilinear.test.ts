import '@tensorflow/tfjs-backend-wasm'
import { image, setBackend, tensor4d } from '@tensorflow/tfjs-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { bilinear } from '../../src/imaging/bilinear.ts'
import { seeded } from '../random.ts'

const PLAIN = { scale: 1, offset: 0 }

describe('bilinear', () => {
  // 0, 100, 200 from left to right in every row, 10 more in each next one.
  const picture = {
    data: Uint8Array.from(
      [0, 1, 2, 3].flatMap((y) => [0, 100, 200].flatMap((v) => Array(3).fill(v + 10 * y))),
    ),
    width: 3,
    height: 4,
  }
  const red = (values: Float32Array) => Array.from(values).filter((_, i) => i % 3 === 0)

  test('reads between pixels in proportion', () => {
    const grid = { left: 0.25, top: 1, stepX: 1, stepY: 0.5 }
    expect(red(bilinear(picture, 2, grid, PLAIN, 'edge'))).toEqual([35, 135, 40, 140])
  })

  test('changes the range', () => {
    const grid = { left: 0, top: 0, stepX: 1, stepY: 0 }
    const values = bilinear(picture, 2, grid, { scale: 0.01, offset: -1 }, 'edge')
    expect(red(values)).toEqual([-1, 0, -1, 0])
  })

  test('reads the nearest edge outside the picture, or black before the change of range', () => {
    const grid = { left: -1, top: 2, stepX: 2, stepY: 2 }
    expect(red(bilinear(picture, 2, grid, PLAIN, 'edge'))).toEqual([20, 120, 30, 130])
    expect(red(bilinear(picture, 2, grid, PLAIN, 'black'))).toEqual([0, 120, 0, 0])
    expect(red(bilinear(picture, 2, grid, { scale: 1, offset: 7 }, 'black'))).toEqual([7, 127, 7, 7])
  })
})

// The reference: resizeBilinear and cropAndResize of TensorFlow.js 4.22.0, which count places in the same way.
describe('bilinear against TensorFlow.js', () => {
  const random = seeded(5)
  const [width, height] = [61, 83]
  const data = Uint8Array.from({ length: 3 * width * height }, () => Math.floor(256 * random()))
  const picture = { data, width, height }
  const asTensor = () => tensor4d(Float32Array.from(data), [1, height, width, 3])
  const largest = (a: Float32Array, b: Float32Array) =>
    a.reduce((most, v, i) => Math.max(most, Math.abs(v - (b[i] ?? 999))), 0)

  beforeAll(async () => {
    await setBackend('wasm')
  })

  test.each([32, 64, 200])('a whole picture stretched to %i x %i', async (size) => {
    const expected = await image.resizeBilinear(asTensor(), [size, size]).data<'float32'>()
    const grid = { left: 0, top: 0, stepX: width / size, stepY: height / size }
    const values = bilinear(picture, size, grid, PLAIN, 'edge')
    expect(values).toHaveLength(expected.length)
    expect(largest(values, expected)).toBeLessThan(0.01)
  })

  test.each([
    [10, 20, 50, 60],
    [-20, -5, 40, 70],
    [30, 40, 90, 120],
  ])('a part of a picture, from %i, %i to %i, %i', async (left, top, right, bottom) => {
    const box = [top / height, left / width, bottom / height, right / width]
    const boxes = [box as [number, number, number, number]]
    const expected = await image.cropAndResize(asTensor(), boxes, [0], [48, 48]).data<'float32'>()
    const x = (width - 1) / width
    const y = (height - 1) / height
    const grid = {
      left: left * x,
      top: top * y,
      stepX: ((right - left) * x) / 47,
      stepY: ((bottom - top) * y) / 47,
    }
    expect(largest(bilinear(picture, 48, grid, PLAIN, 'black'), expected)).toBeLessThan(0.01)
  })
})
