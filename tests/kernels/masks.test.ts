import { expect, test } from 'vitest'
import { erode, grow, open } from '../../src/kernels/masks.ts'
import { seeded } from '../random.ts'

/** A mask written as rows of # and dots. */
function mask(...rows: string[]): Uint8Array {
  return Uint8Array.from(rows.join(''), (mark) => (mark === '#' ? 1 : 0))
}
function rows(data: Uint8Array, width: number): string[] {
  const marks = Array.from(data, (value) => (value === 1 ? '#' : '.')).join('')
  return marks.match(new RegExp(`.{${width}}`, 'g')) ?? []
}

test('erode keeps a pixel only when all around it is set; the frame edge is no hole', () => {
  const from = mask('#####', '#####', '##.##', '#####', '#####')
  expect(rows(erode(from, 5, 5, 1), 5)).toEqual(['#####', '#...#', '#...#', '#...#', '#####'])
  expect(erode(from, 5, 5, 0)).toEqual(from)
})

test('open takes a thin line off and leaves the block', () => {
  const from = mask('.......', '#######', '.......', '..###..', '..###..', '..###..', '.......')
  expect(rows(open(from, 7, 7, 1), 7)).toEqual([
    '.......',
    '.......',
    '.......',
    '..###..',
    '..###..',
    '..###..',
    '.......',
  ])
})

/** The definition: whether all (or any) pixels of the square around each are set, as far as it lies in the frame. */
function around(
  from: Uint8Array,
  width: number,
  height: number,
  radius: number,
  holds: 'every' | 'some',
): Uint8Array {
  const span = (at: number, end: number) =>
    Array.from({ length: 2 * radius + 1 }, (_, k) => at - radius + k).filter((k) => k >= 0 && k < end)
  return from.map((_, i) => {
    const columns = span(i % width, width)
    const squares = span(Math.floor(i / width), height).flatMap((y) => columns.map((x) => y * width + x))
    return Number(squares[holds]((k) => from[k] === 1))
  })
}

test.each([
  [1, 1, 1],
  [3, 2, 1],
  [17, 9, 2],
  [16, 33, 1],
  [61, 40, 3],
  [5, 40, 7],
])('%i x %i pixels, squares of %i around each: as the definitions have it', (width, height, radius) => {
  const random = seeded(width)
  for (const density of [0.02, 0.1, 0.3, 0.9]) {
    const from = Uint8Array.from({ length: width * height }, () => Number(random() > density))
    const eroded = around(from, width, height, radius, 'every')
    expect(erode(from, width, height, radius)).toEqual(eroded)
    expect(open(from, width, height, radius)).toEqual(around(eroded, width, height, radius, 'some'))
    expect(grow(from, width, height, radius)).toEqual(around(from, width, height, radius, 'some'))
  }
})
