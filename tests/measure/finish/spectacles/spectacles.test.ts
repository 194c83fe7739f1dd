import { beforeAll, describe, expect, test } from 'vitest'
import { scaledFace } from '../../../../src/measure/face/placed-face.ts'
import {
  areEyesBare,
  measureSpectacles,
  unknownSpectacles,
} from '../../../../src/measure/finish/spectacles/spectacles.ts'
import { SURE } from '../../../../src/measure/schema/confidence.ts'
import { painted, type SitterFace, sitterFace } from '../../face/sitter-face.ts'
import type { Rgb } from '../../samples.ts'

let sitter: SitterFace
beforeAll(async () => {
  sitter = await sitterFace()
})

const LIGHT: Rgb = [232, 196, 176]
const DARK: Rgb = [74, 52, 42]
const BLACK: Rgb = [28, 26, 26]
const STEEL: Rgb = [190, 190, 196]
interface Scene {
  readonly skin: Rgb
  readonly frame?: Rgb
  /** Of bridge and rims, mm. */
  readonly thickness?: number
  readonly parts?: readonly ('bridge' | 'left' | 'right')[]
}

/** Round lenses 46 mm wide about the irises, in mm from the middle of the eyes. */
function scene({ skin, frame = BLACK, thickness = 2, parts = ['bridge', 'left', 'right'] }: Scene) {
  const { irises } = sitter.located
  const [[leftX, leftY], [rightX, rightY]] = irises
  return painted((x, y) => {
    const half = thickness / 2
    const [across, along] = [
      (x + 0.5 - (leftX + rightX) / 2) / sitter.mmPx,
      (y + 0.5 - (leftY + rightY) / 2) / sitter.mmPx,
    ]
    if (parts.includes('bridge') && Math.abs(across) < 9 && Math.abs(along + 3) < half) return frame
    const isRim = irises.some(
      ([irisX, irisY], eye) =>
        parts.includes(eye === 0 ? 'left' : 'right') &&
        Math.abs(Math.hypot(x + 0.5 - irisX, y + 0.5 - irisY) / sitter.mmPx - 23) < half,
    )
    return isRim ? frame : skin
  })
}
const measured = (what: Scene, change: Partial<typeof sitter.face> = {}) =>
  measureSpectacles(scene(what), sitter.located, { ...sitter.face, ...change }, false)

describe('measureSpectacles', () => {
  test.each([
    ['light', LIGHT],
    ['dark', DARK],
  ] as const)('bare %s skin wears none', (_, skin) => {
    const found = measured({ skin, parts: [] })
    expect(found).toMatchObject({ worn: false, doubts: [] })
    expect(areEyesBare(found)).toBe(true)
  })

  test.each([
    ['black rims on light skin', LIGHT, BLACK, 3],
    ['a thin black wire on light skin', LIGHT, BLACK, 1],
    ['a steel wire on dark skin', DARK, STEEL, 1.2],
    ['black rims on dark skin', DARK, BLACK, 3],
  ] as const)('%s are seen', (_, skin, frame, thickness) => {
    const { worn, confidence } = measured({ skin, frame, thickness })
    expect(worn).toBe(true)
    expect(confidence).toBeGreaterThanOrEqual(SURE)
  })

  test('a faint line over the nose alone, such as a crease, is none', () => {
    expect(measured({ skin: LIGHT, frame: [204, 168, 150], parts: ['bridge'] }).worn).toBe(false)
  })

  test('lines under the eyes alone are none', () => {
    expect(measured({ skin: LIGHT, frame: [200, 164, 146], parts: ['left', 'right'] }).worn).toBe(false)
  })

  test('faint lines leave it open', () => {
    const contrast = (shade: number) =>
      measured({ skin: LIGHT, frame: [LIGHT[0] - shade, LIGHT[1] - shade, LIGHT[2] - shade] })
    const shades = Array.from({ length: 60 }, (_, k) => contrast(2 * k))
    const unclear = shades.filter(({ doubts }) => doubts.includes('frames-unclear'))
    expect(unclear.length).toBeGreaterThan(0)
    expect(unclear.every(({ confidence }) => confidence < SURE)).toBe(true)
    expect(shades[0]?.worn).toBe(false)
    expect(shades.at(-1)?.worn).toBe(true)
  })

  test('turned faces, small ones and dark lenses are left open', () => {
    expect(measured({ skin: LIGHT }, { turnDeg: 36 }).doubts).toEqual(['face-turned'])
    const small = measureSpectacles(
      scene({ skin: LIGHT }),
      scaledFace(sitter.located, 0.25),
      sitter.face,
      false,
    )
    expect(small.doubts).toContain('eyes-too-small')
    const dark = measureSpectacles(scene({ skin: LIGHT, parts: [] }), sitter.located, sitter.face, true)
    expect(dark.doubts).toEqual(['lenses-dark'])
    expect(areEyesBare(dark)).toBe(false)
    expect(unknownSpectacles(['no-face'])).toEqual({
      worn: null,
      frameContrast: null,
      confidence: 0,
      doubts: ['no-face'],
    })
  })
})
