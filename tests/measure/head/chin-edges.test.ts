import { describe, expect, test } from 'vitest'
import { type ChinEdge, chinEdges } from '../../../src/measure/head/chin-edges.ts'
import { chinPatch } from '../../../src/measure/head/chin-patch.ts'
import { ARC, arcAlong, type Color, chinGeometry, painted } from './drawn-chin.ts'

const SKIN: Color = [205, 160, 135]
// The same reflectances in a quarter of the light: linear light x 0.25 (IEC 61966-2-1).
const SHADED: Color = [108, 82, 68]
const CLOTH: Color = [90, 70, 160]

function edgesAt(below: number, lower: Color, upper = SKIN, cell = 1.5): ChinEdge[] {
  const geometry = chinGeometry(cell)
  const picture = painted(geometry, ({ across, along }) => (along < arcAlong(across) + below ? upper : lower))
  return chinEdges(chinPatch(picture, geometry), ARC)
}
const strongest = (edges: readonly ChinEdge[]) => [...edges].sort((a, b) => b.strength - a.strength)[0]

describe('chinEdges', () => {
  test.each([-7, -2, 0, 3.3, 12, 19])('finds a chin %d cells below the mesh', (below) => {
    const edge = strongest(edgesAt(below, SHADED))
    expect(Math.abs((edge?.offset ?? 99) - below)).toBeLessThan(0.5)
    expect(edge?.darkens).toBe(true)
  })

  test.each([0.7, 2.4])('in a face of any size (%d px a cell)', (cell) => {
    const edge = strongest(edgesAt(4, SHADED, SKIN, cell))
    expect(Math.abs((edge?.offset ?? 99) - 4)).toBeLessThan(0.7)
  })

  test('the same skin in shade is told from cloth', () => {
    expect(strongest(edgesAt(3, SHADED))?.shades).toBeGreaterThan(0.97)
    expect(strongest(edgesAt(3, CLOTH))?.shades).toBeLessThan(0.8)
  })

  test('a neck lighter than a beard is told', () => {
    expect(strongest(edgesAt(9, SKIN, SHADED))?.darkens).toBe(false)
  })

  test('the strength is the slope of the color over ten cells', () => {
    // A Gaussian-blurred step of height d has a peak slope of 0.39894 d / sigma; sigma is 2 cells, and averaging over
    // cells adds a box of one cell: sqrt(2^2 + 1/12).
    const lightness = (code: number) => 116 * Math.cbrt(((code / 255 + 0.055) / 1.055) ** 2.4) - 16
    const edge = strongest(edgesAt(0, [119, 119, 119], [200, 200, 200]))
    const expected = (0.39894 * (lightness(200) - lightness(119)) * 10) / Math.sqrt(4 + 1 / 12)
    expect((edge?.strength ?? 0) / expected).toBeGreaterThan(0.95)
    expect((edge?.strength ?? 9) / expected).toBeLessThan(1.05)
  })

  test('nothing is found in plain skin', () => {
    expect(edgesAt(90, SHADED).filter(({ strength }) => strength > 1)).toEqual([])
  })
})
