import { expect, test } from 'vitest'
import { thinned } from '../../src/imaging/pixel-indexes.ts'
import {
  everyNthOf,
  type Outline,
  pixelsInside,
  runsInside,
  sampleOf,
  thinnedRuns,
} from '../../src/imaging/polygon.ts'
import { seeded } from '../random.ts'

const square: Outline = [
  [1, 1],
  [4, 1],
  [4, 3],
  [1, 3],
]

test('a rectangle on pixel edges holds exactly its pixels', () => {
  expect([...pixelsInside(square, 10, 10)]).toEqual([11, 12, 13, 21, 22, 23])
})

test('what lies outside the picture is left out', () => {
  expect([...pixelsInside(square, 3, 2)]).toEqual([4, 5])
  const far: Outline = square.map(([x, y]) => [x + 100, y])
  expect(pixelsInside(far, 10, 10)).toHaveLength(0)
  expect(pixelsInside([], 10, 10)).toHaveLength(0)
})

// The shoelace formula (Meister 1769): the area of a polygon from its corners.
test('the count of pixels comes to the area by the shoelace formula', () => {
  const random = seeded(7)
  for (let round = 0; round < 40; round++) {
    const outline: Outline = Array.from({ length: 7 }, (_, i) => {
      const angle = ((i + random() * 0.8) / 7) * 2 * Math.PI
      const reach = 60 + 90 * random()
      return [200 + reach * Math.cos(angle), 200 + reach * Math.sin(angle)]
    })
    let twice = 0
    outline.forEach(([x, y], i) => {
      const [nextX, nextY] = outline[(i + 1) % outline.length] ?? [0, 0]
      twice += x * nextY - nextX * y
    })
    const area = Math.abs(twice) / 2
    expect(Math.abs(pixelsInside(outline, 400, 400).length - area) / area).toBeLessThan(0.02)
  }
})

test('a sample takes every so many pixels, across the runs', () => {
  const runs = runsInside(square, 10, 10)
  expect([...sampleOf(runs, 6)]).toEqual([11, 12, 13, 21, 22, 23])
  expect([...sampleOf(runs, 3)]).toEqual([11, 13, 22])
  expect(sampleOf(runs, 100)).toHaveLength(6)
  expect(sampleOf([], 10)).toHaveLength(0)
})

test('one of so many pixels of each run, from its first', () => {
  expect([...everyNthOf([11, 14, 21, 22, 31, 35], 3)]).toEqual([11, 21, 31, 34])
  expect(everyNthOf([], 3)).toHaveLength(0)
})

test('thinned runs are the thinned list of their pixels', () => {
  for (const size of [1, 30]) {
    const outline: Outline = square.map(([x, y]) => [size * x, size * y])
    const runs = runsInside(outline, 600, 400)
    for (const most of [7, 400])
      expect(thinnedRuns(runs, most)).toEqual(thinned(pixelsInside(outline, 600, 400), most))
  }
  expect(thinnedRuns([], 10)).toHaveLength(0)
})

// The even-odd rule, pixel by pixel (Shimrat, Communications of the ACM 5(8), 1962): a ray to the right crosses the outline an odd number of times.
test('an outline that crosses itself holds what the even-odd rule says', () => {
  const random = seeded(3)
  const outline: Outline = Array.from({ length: 9 }, () => [40 * random() - 5, 30 * random() - 5])
  const isInside = (x: number, y: number) =>
    outline.filter(([fromX, fromY], i) => {
      const [toX, toY] = outline[(i + 1) % outline.length] ?? [0, 0]
      return fromY > y !== toY > y && x < fromX + ((y - fromY) / (toY - fromY)) * (toX - fromX)
    }).length %
      2 ===
    1
  const expected = Array.from({ length: 30 * 20 }, (_, i) => i).filter((i) =>
    isInside((i % 30) + 0.5, Math.floor(i / 30) + 0.5),
  )
  expect(expected.length).toBeGreaterThan(100)
  expect([...pixelsInside(outline, 30, 20)]).toEqual(expected)
})
