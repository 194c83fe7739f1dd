import { describe, expect, test } from 'vitest'
import { largestCrop, smallestCrops } from '../../src/framing/extremes.ts'
import type { Problem } from '../../src/framing/problem.ts'
import { sitterOf } from '../../src/framing/sitter.ts'
import { type Asked, askFor, measuredAt, PLACE } from './cases.ts'

function problem(asked: Asked, changes: Partial<Problem> = {}): Problem {
  const sitter = sitterOf(measuredAt(PLACE))
  if ('doubts' in sitter) throw new Error('The measurements are of full confidence.')
  const ask = askFor(asked)
  return {
    sitter,
    ask,
    intrusions: [],
    wholeHead: true,
    framed: true,
    enoughPixels: true,
    marginShare: 0,
    ...changes,
  }
}

describe('largestCrop', () => {
  test('of two sides on which a corner can be left out, the one that costs less', () => {
    const corner = { left: 0, top: 0, right: 200, bottom: 240 }
    // Beside it there are 2200 x 3000 px, below it 2400 x 2760, the larger area.
    expect(largestCrop(problem({}, { intrusions: [corner] }))).toMatchObject({ width: 2400, height: 2760 })
    const flat = { left: 0, top: 0, right: 200, bottom: 260 }
    expect(largestCrop(problem({}, { intrusions: [flat] }))).toMatchObject({ width: 2200, height: 3000 })
  })

  test('of an upright and a lying shape, the larger, with the size to deliver', () => {
    const found = largestCrop(problem({ 'pixel-size': { 'long-edge': 1500, 'short-edge': 1200 } }))
    expect(found).toMatchObject({ width: 2400, height: 3000, delivered: { widthPx: 1200, heightPx: 1500 } })
  })

  test('a head that may be cut, and one that may not', () => {
    // A face of 720 px is wider than a sixth of 3000, with the pixel that the rule allows.
    expect(largestCrop(problem({ 'aspect-ratio': '1:6' }))).toBeNull()
    expect(largestCrop(problem({ 'aspect-ratio': '1:6' }, { wholeHead: false }))).toMatchObject({
      width: 501,
    })
  })

  test('pixels that are missing may be left aside, the shape not', () => {
    const asked = { 'pixel-size': { width: 3200, height: 4000 } }
    expect(largestCrop(problem(asked))).toBeNull()
    expect(largestCrop(problem(asked, { enoughPixels: false }))).toMatchObject({ width: 2400, height: 3000 })
  })

  test('beyond the frame, as far as an uncropped frame would reach', () => {
    expect(largestCrop(problem({}, { framed: false }))).toMatchObject({ width: 4 * 2400, height: 4 * 3000 })
  })
})

describe('smallestCrops', () => {
  test('just the head', () => {
    // The face of 720 px across; crown to chin are 1380 px.
    expect(smallestCrops(problem({}))).toMatchObject([{ width: 720, height: 1380 }])
  })

  test('one for each room that has one', () => {
    const corner = { left: 0, top: 0, right: 200, bottom: 240 }
    expect(smallestCrops(problem({}, { intrusions: [corner] }))).toHaveLength(2)
    const over = { left: 1100, top: 1100, right: 1300, bottom: 1200 }
    expect(smallestCrops(problem({}, { intrusions: [over] }))).toEqual([])
  })
})
