import { expect, test } from 'vitest'
import { coarseGrid } from '../../src/likeness/coarse-grid.ts'
import { halved } from '../../src/likeness/luma-grid.ts'
import { seeded } from '../random.ts'

test('four cells become their mean, or none where one lies outside the frame', () => {
  const luma = Uint8Array.of(1, 2, 0, 9, 3, 4, 9, 9)
  expect(halved({ columns: 4, rows: 2, luma })).toEqual({ columns: 2, rows: 1, luma: Uint8Array.of(3, 0) })
})

test('details are twice what a cell of half the resolution has beyond the mean of 5 x 5, around 512; none within two cells of an edge', () => {
  const random = seeded(7)
  const luma = Uint8Array.from({ length: 22 * 24 }, () => 1 + Math.floor(255 * random()))
  const half = halved({ columns: 22, rows: 24, luma })
  const { detail } = coarseGrid({ columns: 22, rows: 24, luma })
  const expected = Array.from(half.luma, (value, i) => {
    const [x, y] = [i % 11, Math.floor(i / 11)]
    if (x < 2 || x > 8 || y < 2 || y > 9) return 0
    let sum = 0
    for (let dy = -2; dy <= 2; dy++)
      for (let dx = -2; dx <= 2; dx++) sum += half.luma[(y + dy) * 11 + x + dx] as number
    return 512 + 2 * (value - sum / 25)
  })
  expect(Math.max(...expected.map((value, i) => Math.abs(value - (detail.plain[i] as number))))).toBeLessThan(
    0.51,
  )
  const mirrored = expected.map((_, i) => detail.plain[i - (i % 11) + 10 - (i % 11)])
  expect([...detail.mirror]).toEqual(mirrored)
})
