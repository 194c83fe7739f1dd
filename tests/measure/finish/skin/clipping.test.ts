import { beforeAll, describe, expect, test } from 'vitest'
import { scaledFace } from '../../../../src/measure/face/placed-face.ts'
import { measureClipping, unknownClipping } from '../../../../src/measure/finish/skin/clipping.ts'
import { painted, sitterFace, WIDTH } from '../../face/sitter-face.ts'
import type { Rgb } from '../../samples.ts'

let sitter: Awaited<ReturnType<typeof sitterFace>>
let browY: number
beforeAll(async () => {
  sitter = await sitterFace()
  browY = (sitter.located.mesh[9]?.[1] ?? Number.NaN) + 1
})

const SKIN: Rgb = [200, 150, 120]
const measured = (color: (x: number, y: number) => Rgb) =>
  measureClipping(painted(color), sitter.located, sitter.face)

describe('measureClipping', () => {
  test('skin within the scale is not clipped', () => {
    expect(measured(() => [253, 150, 2])).toMatchObject({
      clippedHighlightPct: 0,
      clippedShadowPct: 0,
      clipping: { highlightPart: null, shadowPart: null, confidence: sitter.face.confidence },
    })
  })

  // ANSI/NIST-ITL 1-2011 Update 2013, Annex E.3.6: no saturation on facial skin; one channel is enough.
  test.each([
    [[255, 150, 120], 100, 0],
    [[200, 254, 120], 100, 0],
    [[200, 150, 255], 100, 0],
    [[0, 150, 120], 0, 100],
    [[200, 150, 1], 0, 100],
    [[255, 0, 120], 100, 100],
  ] as const)('%j', (color, highlights, shadows) => {
    const result = measured(() => color)
    expect(result.clippedHighlightPct).toBe(highlights)
    expect(result.clippedShadowPct).toBe(shadows)
  })

  test('every fourth pixel is a quarter', () => {
    const { clippedHighlightPct } = measured((x, y) => (x % 2 === 0 && y % 2 === 0 ? [255, 255, 255] : SKIN))
    expect(Math.abs((clippedHighlightPct ?? 0) - 25)).toBeLessThan(1)
  })

  test('tells the part where most is clipped', () => {
    const { eyeDistancePx } = sitter.face
    expect(measured((_, y) => (y < browY ? [255, 240, 230] : SKIN)).clipping.highlightPart).toBe('forehead')
    const cheek = measured((x) => (x > WIDTH / 2 + 0.3 * (eyeDistancePx ?? 0) ? [0, 0, 0] : SKIN))
    expect(cheek.clipping.shadowPart).toBe('right-cheek')
  })

  test('black hair over the forehead is no clipped shadow', () => {
    expect(measured((_, y) => (y < browY ? [0, 0, 0] : SKIN)).clippedShadowPct).toBeLessThan(1)
  })

  test('a face of a few pixels is not measured', () => {
    const small = scaledFace(sitter.located, 0.05)
    const result = measureClipping(
      painted(() => SKIN),
      small,
      sitter.face,
    )
    expect(result).toMatchObject({ clippedHighlightPct: null, clipping: { doubts: ['skin-too-small'] } })
    expect(unknownClipping(['no-face'])).toMatchObject({
      clippedShadowPct: null,
      clipping: { confidence: 0 },
    })
  })
})
