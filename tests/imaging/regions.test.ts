import { expect, test } from 'vitest'
import { regionsOf } from '../../src/imaging/regions.ts'

/** Rows of # and . as a mask. */
function maskOf(...rows: readonly string[]): { mask: Uint8Array; width: number } {
  const text = rows.join('')
  return { mask: Uint8Array.from(text, (mark) => (mark === '#' ? 1 : 0)), width: rows[0]?.length ?? 0 }
}
const sizes = (...rows: readonly string[]) => {
  const { mask, width } = maskOf(...rows)
  return regionsOf(mask, width).map((region) => region.length)
}

test('neighbors above, below and beside belong together, diagonal ones do not', () => {
  expect(sizes('##..', '.#..', '..##')).toEqual([3, 2])
})

test('the end of a row is no neighbor of the next row', () => {
  expect(sizes('...#', '#...')).toEqual([1, 1])
})

test('nothing set, no region; all set, one', () => {
  expect(sizes('..', '..')).toEqual([])
  expect(sizes('##', '##')).toEqual([4])
})

test('the mask is left as it was', () => {
  const { mask, width } = maskOf('##')
  regionsOf(mask, width)
  expect([...mask]).toEqual([1, 1])
})
