import { expect, test } from 'vitest'
import { frameSketch, mostAlike } from '../../src/likeness/frame-sketch.ts'
import { correlation } from '../../src/likeness/grid-likeness.ts'
import { type LumaGrid, mirrored } from '../../src/likeness/luma-grid.ts'
import { seeded } from '../random.ts'

/** Slow light and dark with some noise, as frames have. */
function frame(seed: number, [columns, rows] = [26, 32]): LumaGrid {
  const random = seeded(seed)
  const [x, y, phase, noise] = [3 * random(), 3 * random(), random(), 25 * random()]
  const luma = Float32Array.from({ length: columns * rows }, (_, i) => {
    const wave = Math.sin(
      2 * Math.PI * ((x * (i % columns)) / columns + (y * Math.floor(i / columns)) / rows + phase),
    )
    return Math.max(1, Math.min(255, Math.round(128 + 60 * wave + noise * (random() - 0.5))))
  })
  return { columns, rows, luma }
}

test('the bound is never below the correlation, and lies close to it where a frame has little detail', () => {
  const frames = Array.from({ length: 40 }, (_, seed) => frame(seed + 1))
  const sketches = frames.map((one) => frameSketch(one) ?? expect.unreachable())
  let close = 0
  for (const [i, a] of frames.entries())
    for (const [j, b] of frames.entries()) {
      const most = mostAlike(
        sketches[i] as (typeof sketches)[number],
        sketches[j] as (typeof sketches)[number],
      )
      const likeness = Math.max(correlation(a, b), correlation(a, mirrored(b)))
      expect(most).toBeGreaterThanOrEqual(likeness)
      if (most < likeness + 0.1) close++
    }
  expect(close).toBeGreaterThan(100)
})

test('frames of other shapes, of one brightness or partly outside the picture are bounded by nothing', () => {
  const upright = frameSketch(frame(1)) ?? expect.unreachable()
  const lying = frameSketch(frame(2, [32, 26])) ?? expect.unreachable()
  expect(mostAlike(upright, lying)).toBe(1)
  const { columns, rows, luma } = frame(3)
  expect(frameSketch({ columns, rows, luma: luma.map(() => 200) })).toBeNull()
  expect(frameSketch({ columns, rows, luma: luma.with(5, 0) })).toBeNull()
})
