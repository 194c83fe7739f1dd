import { describe, expect, test } from 'vitest'
import { cropAxesOf } from '../../src/framing/crop-axes.ts'
import type { Problem } from '../../src/framing/problem.ts'
import { sitterOf } from '../../src/framing/sitter.ts'
import { type Asked, askFor, measuredAt, PLACE } from './cases.ts'

function sides(asked: Asked, changes: Partial<Problem> = {}) {
  const sitter = sitterOf(measuredAt(PLACE))
  if ('doubts' in sitter) throw new Error('The measurements are of full confidence.')
  const ask = askFor(asked)
  return cropAxesOf({
    ...{ sitter, ask, intrusions: [], wholeHead: true, framed: true, enoughPixels: true, marginShare: 0 },
    ...changes,
  })
}

describe('cropAxesOf', () => {
  test('one pair of axes for each room and each shape', () => {
    const corner = { left: 0, top: 0, right: 100, bottom: 100 }
    expect(sides({})).toHaveLength(1)
    expect(sides({}, { intrusions: [corner] })).toHaveLength(2)
    expect(sides({ 'pixel-size': { 'long-edge': 900 } }, { intrusions: [corner] })).toHaveLength(4)
    expect(sides({ 'aspect-ratio': '1:1', 'pixel-size': { width: 10, height: 20 } })).toEqual([])
  })

  test('heights from the head height: 1380 px are 42 to 50 % of 2760 to 3285.7 px', () => {
    const [open] = sides({ 'head-height': { min: 42, max: 50 } }, { framed: false })
    expect(open?.down.size.min).toBeCloseTo(2760, 5)
    expect(open?.down.size.max).toBeCloseTo(3285.714, 3)
    const [framed] = sides({ 'head-height': { min: 42, max: 50 } })
    expect(framed?.down.size.max).toBe(3000)
  })

  test('a head height of nothing, or of a negative share, fits no crop', () => {
    for (const max of [0, -5]) {
      const [none] = sides({ 'head-height': { max } })
      expect(none?.down.size.min).toBeGreaterThan(none?.down.size.max ?? 0)
    }
  })

  test('the margin narrows the sizes, and half the tolerance of the ratio is kept', () => {
    const band = { 'head-height': { min: 42, max: 50 } }
    const [exact] = sides(band)
    const [careful] = sides(band, { marginShare: 1 })
    expect(careful?.down.size.min).toBeCloseTo(1380 / 0.497, 5)
    expect([exact?.tolerance, careful?.tolerance]).toEqual([1, 0.5])
  })

  test.each([
    ['not asked', undefined, 1],
    ['asked from above only', { max: 12 }, 1],
    ['asked as a cut', { min: -10, max: 12 }, 0],
    ['asked as nothing but a cut', { max: -2 }, 0],
  ])('headroom %s: lines of the crown itself', (_, headroom, lines) => {
    const [first] = sides(headroom ? { headroom } : {})
    const crown = first?.down.upper.filter(({ at, per }) => Math.abs(at - 270) < 1e-6 && Math.abs(per) < 1e-9)
    expect(crown).toHaveLength(lines)
  })
})
