import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { stripKernels } from '../../../src/kernels/strips/sides.ts'
import { pictureLine } from '../../../src/measure/straightening/canvas.ts'
import { depthAt, type FillLine } from '../../../src/measure/straightening/fill-line.ts'
import { sideStrip } from '../../../src/measure/straightening/side-strip.ts'
import { areaOf, regionOf } from '../../../src/measure/straightening/wedge-region.ts'
import { turned } from './turned.ts'

const [WIDTH, HEIGHT] = [300, 400]
const white = { data: new Uint8Array(3 * WIDTH * HEIGHT).fill(255), width: WIDTH, height: HEIGHT }

/** How deep the fill is at a position along a side of a file that sharp (libvips) rotated, to the middle of its blur. */
async function depths(degrees: number, canvas: 'kept' | 'grown') {
  const file = await turned(white, { fill: 'black', degrees, canvas })
  const { data, info } = await sharp(file).removeAlpha().raw().toBuffer({ resolveWithObject: true })
  const picture = { data, width: info.width, height: info.height }
  return (['top', 'right', 'bottom', 'left'] as const).map((side, i) => {
    const strip = sideStrip(picture, side)
    const luma = stripKernels.memory.shorts(strip.luma, strip.length * strip.depth)
    const turn = { slope: Math.tan((degrees * Math.PI) / 180), canvas }
    const line = pictureLine(strip, i % 2 === 0 ? info.height : info.width, turn)
    return { strip, luma, line }
  })
}

describe('where the picture begins is where rotating it with sharp puts it', () => {
  test.each([
    [3, 'kept'],
    [-3, 'grown'],
    [6, 'grown'],
    [-1, 'kept'],
  ] as const)('%s degrees, canvas %s', async (degrees, canvas) => {
    for (const { strip, luma, line } of await depths(degrees, canvas)) {
      for (let t = 5; t < strip.length - 5; t += 20) {
        const expected = depthAt(line, t + 0.5)
        // Beyond that the wedge of the next side begins.
        if (expected < 2 || expected > strip.depth - 3) continue
        let dark = 0
        for (let d = 0; d < strip.depth; d++) dark += 1 - (luma[d * strip.length + t] as number) / (16 * 255)
        // Canvas and place are rounded to whole px.
        expect(Math.abs(dark - expected), `${strip.side} at ${t}`).toBeLessThan(1.5)
      }
    }
  })
})

describe('the box around a wedge', () => {
  const line: FillLine = { start: 20, slope: -0.1 }

  test('along the top from the left corner', () => {
    expect(regionOf(line, 'top', 400, 500)).toEqual({
      side: 'top',
      box: { x: 0, y: 0, width: 0.5, height: 0.04 },
    })
    expect(areaOf(line, 400)).toBeCloseTo(2000, 6)
  })

  test('along the left from below, since positions run clockwise', () => {
    const box = regionOf(line, 'left', 400, 500)?.box
    expect(box?.x).toBe(0)
    expect(box?.y).toBeCloseTo(0.6, 9)
    expect(box?.width).toBeCloseTo(0.05, 9)
    expect(box?.height).toBeCloseTo(0.4, 9)
  })

  test('a line outside of the frame leaves none', () => {
    expect(regionOf({ start: -5, slope: 0.001 }, 'top', 400, 500)).toBeNull()
  })
})
