import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import type { RgbPicture } from '../../../src/imaging/rgb-picture.ts'
import { sumsOf } from '../../../src/kernels/strips/rows.ts'
import { forgetStrips } from '../../../src/kernels/strips/sides.ts'
import { depthAt, type FillLine } from '../../../src/measure/straightening/fill-line.ts'
import { type SideStrip, sideStrip } from '../../../src/measure/straightening/side-strip.ts'
import { readRows, stillestTurns, stillOutside } from '../../../src/measure/straightening/still-rows.ts'
import { linesOf } from '../../../src/measure/straightening/turn-search.ts'
import { gaussian } from '../../random.ts'
import { turned } from './turned.ts'

const [WIDTH, HEIGHT] = [640, 800]
const slope = (degrees: number) => Math.tan((degrees * Math.PI) / 180)

/** A gray wall with grain. */
function wall(sigma: number): RgbPicture {
  const data = new Uint8Array(3 * WIDTH * HEIGHT)
  const grain = gaussian(3)
  for (let i = 0; i < WIDTH * HEIGHT; i++) data.fill(Math.round(150 + sigma * grain()), 3 * i, 3 * i + 3)
  return { data, width: WIDTH, height: HEIGHT }
}

async function stripsOf(file: Buffer): Promise<SideStrip[]> {
  const { data, info } = await sharp(file).raw().toBuffer({ resolveWithObject: true })
  forgetStrips()
  const picture = { data, width: info.width, height: info.height }
  return (['top', 'right', 'bottom', 'left'] as const).map((side) => sideStrip(picture, side, 40))
}

const jpeg = ({ data, width, height }: RgbPicture, quality: number) =>
  sharp(data, { raw: { width, height, channels: 3 } })
    .jpeg({ quality })
    .toBuffer()

describe('rows outside of the lines of a turn', () => {
  // The rotation and the repeated pixels are those of sharp (libvips).
  test.each([1, -2, 0.5])('repeated ones of a wall turned by %s degrees are still', async (degrees) => {
    const strips = await stripsOf(
      await turned(wall(3), { fill: 'smeared', degrees, canvas: 'kept', quality: 92 }),
    )
    const rows = strips.map(readRows)
    const at = (angle: number) =>
      stillOutside(rows, [linesOf(strips, { slope: slope(angle), canvas: 'kept' })])[0]
    expect(at(degrees)).toBeGreaterThan(6)
    expect(at(-degrees)).toBeLessThan(0)
    const turns = [-2, -1, -0.5, 0.5, 1, 2].map((angle) => ({ slope: slope(angle), canvas: 'kept' }) as const)
    const [best] = [0, 1, 2].flatMap((from) => stillestTurns(rows, strips, turns.slice(from)).slice(0, 1))
    expect(Math.sign(best?.slope ?? 0)).toBe(Math.sign(degrees))
  })

  // Of strong JPEG the outermost rows of a block are alike, too, which once looked repeated.
  test.each([92, 45])(
    'those of the wall as it is are not, saved at quality %s off its blocks',
    async (quality) => {
      const { data, info } = await sharp(await jpeg(wall(3), quality))
        .extract({ left: 3, top: 5, width: WIDTH - 8, height: HEIGHT - 11 })
        .raw()
        .toBuffer({ resolveWithObject: true })
      const strips = await stripsOf(await jpeg({ data, width: info.width, height: info.height }, 75))
      const rows = strips.map(readRows)
      for (const canvas of ['kept', 'grown'] as const)
        for (let degrees = -3; degrees <= 3; degrees += 0.25)
          expect(stillOutside(rows, [linesOf(strips, { slope: slope(degrees), canvas })])[0]).toBeLessThan(5)
    },
  )

  test('two sides tell nothing, and a picture without any detail neither', async () => {
    const strips = await stripsOf(await jpeg(wall(0), 92))
    const lines = linesOf(strips, { slope: 0.02, canvas: 'kept' })
    const rows = strips.map(readRows)
    expect(stillOutside(rows, [lines])[0]).toBeCloseTo(0, 3)
    expect(stillOutside(rows.slice(0, 2), [lines])).toEqual([0])
  })
})

// Two-way analysis of variance, written out: weights less their means by row and by bin are what cells that hold no such means are multiplied by.
test('standard errors are those of the weights without the means of rows and bins', async () => {
  const [strip] = await stripsOf(await jpeg(wall(3), 92))
  const side = readRows(strip as SideStrip)
  const { bins, rows } = side
  const sums = sumsOf(side)
  const line: FillLine = { start: 14.3, slope: -0.031 }
  const weight = (row: number, bin: number) =>
    Math.min(1, Math.max(0, depthAt(line, 16 * (bin + 0.5)) - (row + 1) + 0.25))
  const all = Array.from({ length: rows }, (_, row) =>
    Array.from({ length: bins }, (_, bin) => weight(row, bin)),
  )
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length
  const ofBin = Array.from({ length: bins }, (_, bin) => mean(all.map((row) => row[bin] as number)))
  let [found, own] = [0, 0]
  for (const [row, weights] of all.entries())
    for (const [bin, each] of weights.entries()) {
      const cell = (sums[(row + 1) * bins + bin] as number) - (sums[row * bins + bin] as number)
      found -= each * cell
      own += (each - mean(weights) - (ofBin[bin] as number) + mean(ofBin)) ** 2
    }
  const expected = found / Math.sqrt(own)
  // Of three sides that tell the same, the one left out included: twice as much over the root of two.
  expect(stillOutside([side, side, side], [[line, line, line]])[0]).toBeCloseTo(Math.SQRT2 * expected, 3)
})
