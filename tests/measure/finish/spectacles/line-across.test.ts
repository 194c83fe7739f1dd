import { describe, expect, test } from 'vitest'
import { CELLS_PER_MM, type StripCells } from '../../../../src/measure/finish/spectacles/face-strip.ts'
import { lineAcross, MARGIN } from '../../../../src/measure/finish/spectacles/line-across.ts'

/** 20 x 20 mm of a lightness by the place from the middle in mm, with its margin. */
function strip(lightness: (across: number, along: number) => number): StripCells {
  const [columns, rows] = [40 + 2 * MARGIN.columns, 40 + 2 * MARGIN.rows]
  const cells = Float32Array.from({ length: columns * rows }, (_, i) =>
    lightness(
      ((i % columns) + 0.5 - columns / 2) / CELLS_PER_MM,
      (Math.floor(i / columns) + 0.5 - rows / 2) / CELLS_PER_MM,
    ),
  )
  return { cells, columns, rows }
}
// Rows are even in number: the middle of the strip lies between two cells.
const CELL_MIDDLE = 0.5 / CELLS_PER_MM
const bell = (x: number, sigma: number) => Math.exp((-x * x) / (2 * sigma * sigma))

describe('a line across a strip', () => {
  // A Gaussian line of sigma s and contrast c answers the normalized second derivative of a Gaussian of 1 mm with
  // c s / (1 + s²)^1.5 (Lindeberg 1998, section 4.3; two Gaussians add their variances).
  test.each([
    ['dark', -0.2, 1],
    ['bright', 0.2, 1],
    ['a thin wire', -0.2, 0.5],
    ['a thick rim', -0.2, 2],
  ] as const)('%s: contrast %f at sigma %f mm', (_, contrast, sigma) => {
    const found = lineAcross(strip((_, along) => 0.6 + contrast * bell(along - CELL_MIDDLE, sigma)))
    const published = (Math.abs(contrast) * sigma) / (1 + sigma * sigma) ** 1.5
    expect(Math.abs(found / published - 1)).toBeLessThan(0.03)
  })

  test('that rises or bends is followed', () => {
    const level = lineAcross(strip((_, along) => 0.6 - 0.2 * bell(along, 1)))
    const bent = lineAcross(strip((across, along) => 0.6 - 0.2 * bell(along - 4 + 0.08 * across * across, 1)))
    expect(bent / level).toBeGreaterThan(0.6)
  })

  test('none in plain skin, in shading, or along the strip', () => {
    expect(lineAcross(strip(() => 0.6))).toBeLessThan(0.001)
    expect(lineAcross(strip((across, along) => 0.6 + 0.02 * across + 0.03 * along))).toBeLessThan(0.001)
    expect(lineAcross(strip((across) => 0.6 - 0.2 * bell(across, 1)))).toBeLessThan(0.001)
  })

  test('one that ends halfway is not across', () => {
    const half = lineAcross(strip((across, along) => 0.6 - (across < 0 ? 0.2 : 0) * bell(along, 1)))
    expect(half).toBeLessThan(0.005)
  })
})
