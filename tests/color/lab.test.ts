import { lab as culoriLab } from 'culori'
import { describe, expect, test } from 'vitest'
import { chromaPlane, labPlanes, rgbToLab } from '../../src/color/lab.ts'
import { seeded } from '../random.ts'

// Worked from the formulas of IEC 61966-2-1 and CIE 15:2004; culori 4.0.2 and colorjs.io 0.7.1 give the same to the
// fourth decimal.
const GRAYS: readonly (readonly [code: number, L: number])[] = [
  [0, 0],
  [10, 2.7417],
  [11, 3.0229],
  [20, 6.3189],
  [51, 21.2467],
  [64, 27.0934],
  [118, 49.637],
  [119, 50.0344],
  [127, 53.1928],
  [128, 53.585],
  [180, 73.312],
  [192, 77.7044],
  [200, 80.6041],
  [204, 82.0458],
  [217, 86.6954],
  [220, 87.7609],
  [230, 91.293],
  [235, 93.0481],
  [240, 94.7962],
  [242, 95.4936],
  [245, 96.5375],
  [250, 98.272],
  [254, 99.6549],
  [255, 100],
]

describe('grays', () => {
  test.each(GRAYS)('sRGB code %i is L* %f', (code, L) => {
    const color = rgbToLab(code, code, code)
    expect(color.L).toBeCloseTo(L, 4)
    expect(color.a).toBeCloseTo(0, 9)
    expect(color.b).toBeCloseTo(0, 9)
  })
})

// The same sources. Within 0.02, for the D50 white of ICC.1 (Z 0.8249) and that by chromaticity (Z 0.8251) differ.
const COLORS: readonly (readonly [rgb: readonly [number, number, number], lab: readonly number[]])[] = [
  [
    [255, 0, 0],
    [54.291, 80.805, 69.891],
  ],
  [
    [0, 255, 0],
    [87.819, -79.271, 80.995],
  ],
  [
    [0, 0, 255],
    [29.568, 68.287, -112.03],
  ],
  [
    [255, 255, 0],
    [97.607, -15.75, 93.394],
  ],
  [
    [0, 255, 255],
    [90.666, -50.657, -14.962],
  ],
  [
    [255, 0, 255],
    [60.169, 93.54, -60.501],
  ],
  [
    [194, 150, 130],
    [65.92, 14.961, 17.266],
  ],
  [
    [115, 82, 68],
    [38.223, 12.767, 13.971],
  ],
]

describe('colors', () => {
  test.each(COLORS)('sRGB %j is L*a*b* %j under D50', (rgb, lab) => {
    const { L, a, b } = rgbToLab(...rgb)
    for (const [n, value] of [L, a, b].entries()) {
      expect(Math.abs(value - (lab[n] as number)), `${'Lab'[n]} is ${value}`).toBeLessThan(0.02)
    }
  })

  test('agree with culori 4.0.2, a second implementation, on 2000 random codes', () => {
    const random = seeded(50)
    const code = () => Math.floor(256 * random())
    for (let n = 0; n < 2000; n++) {
      const [r, g, b] = [code(), code(), code()]
      const ours = rgbToLab(r, g, b)
      const theirs = culoriLab({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 })
      expect(Math.abs(ours.L - theirs.l)).toBeLessThan(0.01)
      expect(Math.abs(ours.a - theirs.a)).toBeLessThan(0.02)
      expect(Math.abs(ours.b - theirs.b)).toBeLessThan(0.02)
    }
  })
})

describe('planes', () => {
  // Every 5th code of each channel: 140,608 colors, black and white among them.
  const codes = Array.from({ length: 52 }, (_, n) => 5 * n)
  const data = Uint8Array.from(codes.flatMap((r) => codes.flatMap((g) => codes.flatMap((b) => [r, g, b]))))
  const pixels = data.length / 3

  test('hold what the single color has, within 0.001', () => {
    const planes = labPlanes(data, pixels)
    let worst = 0
    for (let i = 0; i < pixels; i++) {
      const { L, a, b } = rgbToLab(
        data[3 * i] as number,
        data[3 * i + 1] as number,
        data[3 * i + 2] as number,
      )
      const errors = [L - (planes.L[i] as number), a - (planes.a[i] as number), b - (planes.b[i] as number)]
      worst = Math.max(worst, ...errors.map(Math.abs))
    }
    expect(worst).toBeLessThan(0.001)
  })

  test('are as long as asked', () => {
    expect(labPlanes(data, 7).b).toHaveLength(7)
    expect(labPlanes(data, 0).L).toHaveLength(0)
  })
})

test('chroma is the distance from gray, to the last bit', () => {
  const next = seeded(5)
  const pixels = 1001
  const data = Uint8Array.from({ length: 3 * pixels }, () => Math.floor(256 * next()))
  const { a, b } = labPlanes(data, pixels)
  const expected = a.map((along, i) => Math.sqrt(along ** 2 + (b[i] as number) ** 2))
  expect([...chromaPlane(data, pixels)]).toEqual([...expected])
})
