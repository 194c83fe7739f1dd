import { describe, expect, test } from 'vitest'
import type { SizeLimits } from '../../src/framing/ask.ts'
import { deliveredSize, leastSize, shapesFor } from '../../src/framing/shape.ts'
import { ratioOf } from '../../src/numbers/ratio.ts'
import { askFor } from './cases.ts'

const size = (options: unknown): SizeLimits | undefined => askFor({ 'pixel-size': options })['pixel-size']
const px = (widthPx: number, heightPx: number) => ({ widthPx, heightPx })

describe('shapesFor', () => {
  test('nothing asked: every shape will do', () => {
    expect(shapesFor(undefined, undefined)).toMatchObject([{ ratio: { min: 0, max: Infinity } }])
  })

  test('an exact pixel size asks for its ratio and at least its pixels', () => {
    const [shape, ...others] = shapesFor(undefined, size({ width: 2400, height: 3000 }))
    expect(shape?.ratio).toEqual({ min: 0.8, max: 0.8 })
    expect(shape && leastSize(shape)).toEqual(px(2400, 3000))
    expect(others).toEqual([])
  })

  test('ranges leave a range of ratios', () => {
    const ranges = size({ width: { min: 600, max: 800 }, height: { min: 900, max: 1000 } })
    expect(shapesFor(undefined, ranges)).toMatchObject([{ ratio: { min: 0.6, max: 800 / 900 } }])
    expect(shapesFor(ratioOf('3:4'), ranges)).toMatchObject([{ ratio: { min: 0.75, max: 0.75 } }])
  })

  test.each([
    ['4:5', { 'long-edge': { min: 2000 } }, px(1600, 2000)],
    ['3:2', { 'long-edge': { min: 2000 } }, px(2000, 1333)],
    ['4:5', { width: 2400 }, px(2400, 3000)],
    ['1:1', { 'short-edge': 800 }, px(800, 800)],
  ])('%s of %j needs at least %j', (ratio, options, least) => {
    const shapes = shapesFor(ratioOf(ratio), size(options))
    expect(shapes.length).toBeGreaterThan(0)
    for (const shape of shapes) expect(leastSize(shape)).toEqual(least)
  })

  test('an edge alone is met upright or lying', () => {
    const shapes = shapesFor(undefined, size({ 'long-edge': { min: 2000 }, 'short-edge': { min: 500 } }))
    expect(shapes.map(leastSize)).toEqual([px(500, 2000), px(2000, 500)])
  })

  test('a ratio that lies, and an edge: lying only', () => {
    const shapes = shapesFor(ratioOf('3:2'), size({ 'long-edge': 1200 }))
    expect(shapes).toMatchObject([{ ratio: { min: 1.5, max: 1.5 }, width: { max: 1200 } }])
  })

  test.each([
    ['another ratio than the size has', '1:1', { width: 2400, height: 3000 }],
    ['2 px off the ratio', '4:5', { width: 1640, height: 2048 }],
    ['edges that contradict each other', undefined, { width: { max: 500 }, 'short-edge': { min: 600 } }],
    ['a short edge over the long one', undefined, { 'short-edge': 900, 'long-edge': 800 }],
    ['a lying ratio in an upright size', '3:2', { width: 800, height: { min: 900 } }],
  ])('%s: none', (_, ratio, options) => {
    expect(shapesFor(ratio === undefined ? undefined : ratioOf(ratio), size(options))).toEqual([])
  })

  test('a size within the pixel of the ratio that the rule allows counts', () => {
    // 4/5 of 2048 is 1638.4: both neighbors are 4:5 to within a pixel, and the crop takes the ratio of the size.
    for (const width of [1638, 1639]) {
      const [shape] = shapesFor(ratioOf('4:5'), size({ width, height: 2048 }))
      expect(shape?.ratio).toEqual({ min: width / 2048, max: width / 2048 })
    }
  })
})

describe('deliveredSize', () => {
  const delivered = (crop: { widthPx: number; heightPx: number }, options: unknown, ratio?: string) => {
    const [shape] = shapesFor(ratio === undefined ? undefined : ratioOf(ratio), size(options))
    return shape && deliveredSize(crop, shape)
  }

  test('the crop itself when it is within the limits', () => {
    expect(delivered(px(2210, 2762), { 'long-edge': { min: 2000 } }, '4:5')).toEqual(px(2210, 2762))
  })

  test('exactly what is asked', () => {
    expect(delivered(px(2210, 2762), { width: 1200, height: 1500 }, '4:5')).toEqual(px(1200, 1500))
  })

  test('scaled down no more than needed', () => {
    expect(delivered(px(2000, 2500), { height: { max: 1500 } })).toEqual(px(1200, 1500))
    expect(delivered(px(2000, 2500), { width: { max: 1000 }, height: { max: 1500 } })).toEqual(px(1000, 1250))
  })

  test('the other edge to the nearest px', () => {
    // 4/5 of 2048 is 1638.4.
    expect(delivered(px(2400, 3000), { 'long-edge': 2048 }, '4:5')).toEqual(px(1638, 2048))
  })
})
