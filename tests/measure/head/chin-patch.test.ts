import { describe, expect, test } from 'vitest'
import { chinPatch, patchAt } from '../../../src/measure/head/chin-patch.ts'
import { chinGeometry, painted } from './drawn-chin.ts'

describe.each([
  ['a small face', 0.7, 0],
  ['a large face', 2.4, 0],
  ['a leaning face', 1.5, 20],
])('%s', (_, cell, leanDeg) => {
  const geometry = chinGeometry(cell, leanDeg)

  test("the mesh's chin is 100 cells below the eyes, and places lead back to pixels", () => {
    const patch = chinPatch(
      painted(geometry, () => [128, 128, 128]),
      geometry,
    )
    const chin = patch.placeOf(geometry.meshChin)
    expect(chin.along).toBeCloseTo(100, 6)
    expect(chin.across).toBeCloseTo(0, 6)
    const pixel = patch.pixelOf({ across: -12, along: 77 })
    expect(patch.placeOf(pixel).across).toBeCloseTo(-12, 6)
    expect(patch.placeOf(pixel).along).toBeCloseTo(77, 6)
  })

  test('colors lie where they were painted', () => {
    // CIE L* of gray codes: 119 is 50.03, 200 is 80.60 (CIE 15:2004 on IEC 61966-2-1).
    const picture = painted(geometry, ({ across }) => (across < 0 ? [119, 119, 119] : [200, 200, 200]))
    const patch = chinPatch(picture, geometry)
    for (const along of [60, 80, 95]) {
      expect(patchAt(patch.planes.L, { across: -8, along })).toBeCloseTo(50.03, 1)
      expect(patchAt(patch.planes.L, { across: 8, along })).toBeCloseTo(80.6, 1)
    }
  })
})

test('beyond the frame its edge goes on', () => {
  const geometry = chinGeometry(3.1)
  const patch = chinPatch(
    painted(geometry, () => [119, 119, 119]),
    geometry,
  )
  expect(patch.pixelOf({ across: 0, along: 130 }).y).toBeGreaterThan(500)
  expect(patchAt(patch.planes.L, { across: 0, along: 130 })).toBeCloseTo(50.03, 1)
})
