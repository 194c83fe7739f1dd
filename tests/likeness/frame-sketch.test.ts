import { expect, test } from 'vitest'
import type { ByteGrid } from '../../src/kernels/grids/grids.ts'
import { type FrameSketch, frameSketch } from '../../src/likeness/frame-sketch.ts'
import { byteCorrelation } from '../../src/likeness/grid-likeness.ts'
import { mirrored } from '../../src/likeness/luma-grid.ts'
import { seeded } from '../random.ts'

/** Slow light and dark with some noise, as frames have. */
function frame(seed: number, [columns, rows] = [26, 32]): ByteGrid {
  const random = seeded(seed)
  const [x, y, phase, noise] = [3 * random(), 3 * random(), random(), 25 * random()]
  const luma = Uint8Array.from({ length: columns * rows }, (_, i) => {
    const wave = Math.sin(
      2 * Math.PI * ((x * (i % columns)) / columns + (y * Math.floor(i / columns)) / rows + phase),
    )
    return Math.max(1, Math.min(255, Math.round(128 + 60 * wave + noise * (random() - 0.5))))
  })
  return { columns, rows, luma }
}

function product(a: Float32Array, b: Float32Array): number {
  return a.reduce((sum, value, k) => sum + value * (b[k] as number), 0)
}

test('the bound is never below the correlation, and lies close to it where a frame has little detail', () => {
  const frames = Array.from({ length: 40 }, (_, seed) => frame(seed + 1))
  const sketches = frames.map((one) => frameSketch(one) ?? expect.unreachable())
  let close = 0
  for (const [i, a] of frames.entries())
    for (const [j, b] of frames.entries()) {
      const [p, q] = [sketches[i] as FrameSketch, sketches[j] as FrameSketch]
      const most = Math.max(product(p.plain, q.plain), product(p.mirror, q.plain))
      const likeness = Math.max(byteCorrelation(a, b), byteCorrelation(a, mirrored(b)))
      expect(most).toBeGreaterThanOrEqual(likeness)
      if (most < likeness + 0.1) close++
    }
  expect(close).toBeGreaterThan(100)
})

test('frames of one brightness or partly outside the picture have no bound', () => {
  const { columns, rows, luma } = frame(3)
  expect(frameSketch({ columns, rows, luma: luma.map(() => 200) })).toBeNull()
  expect(frameSketch({ columns, rows, luma: luma.with(5, 0) })).toBeNull()
})
