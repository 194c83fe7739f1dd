import { beforeAll, describe, expect, test } from 'vitest'
import { measureLensGlare } from '../../../../src/measure/finish/glare/lens-glare.ts'
import { seeReflections } from '../../../../src/measure/finish/glare/see-reflections.ts'
import { paintedEyes, type SitterFace, sitterFace } from '../../face/sitter-face.ts'
import type { Rgb } from '../../samples.ts'

let sitter: SitterFace
beforeAll(async () => {
  sitter = await sitterFace()
})

const LILAC: Rgb = [150, 136, 172]

/** Dark skin, brighter at one cheek, with a color where `colored` says, in mm from the iris; eye 0 is the left in the frame. */
function glareOf(colored: (eye: number, x: number, y: number) => boolean, color: Rgb = LILAC) {
  const atEye = (eye: number, x: number, y: number): Rgb | undefined => {
    if (Math.hypot(x, y) < 5.8) return [40, 28, 22]
    if ((x / 13) ** 2 + (y / 5) ** 2 < 1) return [205, 200, 195]
    return Math.abs(x) < 20 && colored(eye, x, y) ? color : undefined
  }
  const picture = paintedEyes(sitter, atEye, (x) =>
    x < sitter.located.irises[0][0] ? [208, 150, 120] : [150, 104, 82],
  )
  return measureLensGlare(picture, seeReflections(picture, sitter.located), sitter.face)
}
const onLid = (_: number, x: number, y: number) => y < -3 && y > -14 && Math.abs(x) < 14

describe('a pale color', () => {
  test('on the upper lids of both eyes may be make-up: left to a person', () => {
    const { lensGlare } = glareOf(onLid)
    expect(lensGlare.doubts).toEqual(['lids-made-up'])
    expect(lensGlare.confidence).toBeLessThan(0.5)
  })

  test.each([
    ['on one lid only', (eye: number, x: number, y: number) => eye === 0 && onLid(eye, x, y), LILAC],
    ['below the eyes', (_: number, x: number, y: number) => y > 6 && y < 16 && Math.abs(x) < 14, LILAC],
    ['as bright as a light', onLid, [250, 250, 255]],
  ] as const)('%s is a reflection', (_, colored, color) => {
    const { lensGlarePct, lensGlare } = glareOf(colored, [...color])
    expect(lensGlare.doubts).toEqual([])
    expect(lensGlarePct).toBeGreaterThan(3)
  })
})
