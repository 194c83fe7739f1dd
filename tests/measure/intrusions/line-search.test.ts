import { describe, expect, test } from 'vitest'
import { GRAIN } from '../../../src/imaging/smoothing.ts'
import { layOutSmoothly } from '../../../src/kernels/edges.ts'
import { borderSamples } from '../../../src/measure/backdrop/backdrop.ts'
import { searchLines } from '../../../src/measure/intrusions/line-search.ts'
import { gaussian } from '../../random.ts'

const WIDTH = 160
const HEIGHT = 200

/** The most voted line of a picture whose L* is told pixel by pixel, with noise of 0.7 L*. */
function best(lightness: (x: number, y: number) => number) {
  const noise = gaussian(3)
  const L = Float32Array.from(
    { length: WIDTH * HEIGHT },
    (_, i) => lightness(i % WIDTH, Math.floor(i / WIDTH)) + 0.7 * noise(),
  )
  const flat = new Float32Array(L.length)
  const lab = { L, a: flat, b: flat }
  const { smooth } = layOutSmoothly({ lab, width: WIDTH, height: HEIGHT }, GRAIN)
  const [line] = searchLines(smooth, {
    border: borderSamples(WIDTH, HEIGHT, null),
    inside: { x: 80, y: 100 },
    isWanted: () => true,
    clearance: 0,
    endRow: HEIGHT,
  })
  return line
}

describe('a step of 3 L* in noise is found to the pixel', () => {
  test('upright', () => {
    const line = best((x) => (x < 24 ? 92 : 95))
    expect(line).toMatchObject({ from: 'top', to: 'bottom' })
    expect(Math.abs((line?.x ?? 99) - 24)).toBeLessThan(1.5)
    expect(Math.abs((line?.x ?? 99) + 200 * (line?.dx ?? 1) - 24)).toBeLessThan(2)
  })

  test('leaning', () => {
    const line = best((x, y) => (x < 20 + 0.1 * y ? 92 : 95))
    expect(Math.abs((line?.x ?? 99) - 20)).toBeLessThan(2)
    expect(Math.abs(Math.atan2(line?.dx ?? 9, line?.dy ?? 1) - Math.atan(0.1))).toBeLessThan(0.02)
  })

  test('across a corner', () => {
    const line = best((x, y) => (x / 60 + y / 50 < 1 ? 92 : 95))
    expect(new Set([line?.from, line?.to])).toEqual(new Set(['top', 'left']))
    expect(Math.abs((line?.length ?? 0) - Math.hypot(60, 50))).toBeLessThan(4)
  })
})
