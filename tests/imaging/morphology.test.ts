import { expect, test } from 'vitest'
import { erode, open } from '../../src/imaging/morphology.ts'

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
