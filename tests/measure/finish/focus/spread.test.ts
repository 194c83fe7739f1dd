import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import type { Patch } from '../../../../src/imaging/patch.ts'
import { edgeSpread, sharper } from '../../../../src/measure/finish/focus/spread.ts'
import { seeded } from '../../../random.ts'

const SIZE = 256
const FINER = 3

/**
 * A mosaic of cells between random straight lines, each of a random gray: the chance that no line parts two points falls
 * with exp(-r / d) (Poisson line process; Santaló, Integral Geometry and Geometric Probability, 1976, from memory). No eye,
 * but edges at random distances. Drawn finer and shrunk by averaging, as pixels average.
 */
function mosaic(seed: number, distance: number): Buffer {
  const random = seeded(seed)
  const radius = SIZE * Math.SQRT1_2
  const lines = Array.from({ length: Math.round((Math.PI * radius) / distance) }, () => {
    const angle = Math.PI * random()
    return {
      x: Math.cos(angle),
      y: Math.sin(angle),
      at: radius * (2 * random() - 1),
      mark: random() * 2 ** 32,
    }
  })
  const cell = (x: number, y: number) =>
    lines.reduce((mark, line) => (x * line.x + y * line.y > line.at ? mark ^ line.mark : mark), 0) >>> 0
  return Buffer.from(
    Uint8Array.from({ length: SIZE * SIZE }, (_, i) => {
      let sum = 0
      for (let y = 0; y < FINER; y++) {
        for (let x = 0; x < FINER; x++) {
          const column = (i % SIZE) + (x + 0.5) / FINER - SIZE / 2
          const row = Math.floor(i / SIZE) + (y + 0.5) / FINER - SIZE / 2
          sum += 30 + (190 * cell(column, row)) / 2 ** 32
        }
      }
      return Math.round(sum / FINER ** 2)
    }),
  )
}

async function blurred(luma: Buffer, sigma: number): Promise<Patch> {
  // The defaults of sharp cut the Gaussian off where it falls to a fifth, which leaves 0.8 of its sigma.
  const data = await sharp(luma, { raw: { width: SIZE, height: SIZE, channels: 1 } })
    .blur({ sigma, minAmplitude: 0.001, precision: 'float' })
    .toColourspace('b-w')
    .raw()
    .toBuffer()
  return { luma: Float32Array.from(data), width: SIZE, height: SIZE }
}

describe.each([1, 2])('mosaic %i, blurred', (seed) => {
  const luma = mosaic(seed, 1 / (2 * Math.PI * 0.03))

  test.each([1, 2, 4])('by %f px, is read within a tenth', async (sigma) => {
    const spread = edgeSpread(await blurred(luma, sigma), 1)
    expect(Math.abs(Math.sqrt(spread?.variance ?? 0) / Math.hypot(sigma, 12 ** -0.5) - 1)).toBeLessThan(0.1)
  })
})

describe('of two spreads', () => {
  test('the smaller is the sharper', () => {
    const [a, b] = [
      { variance: 1, error: 0.1, grain: 2 },
      { variance: 1.5, error: 0.1, grain: 2 },
    ]
    expect(sharper(a, b)).toBe(a)
    expect(sharper(b, a)).toBe(a)
  })
  test('those that can not be told apart count as their mean, the better known one more', () => {
    const both = sharper({ variance: 1, error: 0.1, grain: 2 }, { variance: 1.2, error: 0.2, grain: 4 })
    expect(both?.variance).toBeCloseTo(1.04, 9)
    expect(both?.error).toBeCloseTo(Math.sqrt(1 / 125), 9)
    expect(both?.grain).toBe(3)
  })
  test('the one that is known stands for both', () => {
    const a = { variance: 1, error: 0.1, grain: 2 }
    expect(sharper(null, a)).toBe(a)
    expect(sharper(a, null)).toBe(a)
    expect(sharper(null, null)).toBeNull()
  })
})
