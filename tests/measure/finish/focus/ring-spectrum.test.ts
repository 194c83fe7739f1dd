import { expect, test } from 'vitest'
import type { Patch } from '../../../../src/imaging/patch.ts'
import { ringSpectrum } from '../../../../src/measure/finish/focus/ring-spectrum.ts'
import { gaussian } from '../../../random.ts'

function patch(width: number, height: number, luma: (x: number, y: number) => number): Patch {
  return {
    width,
    height,
    luma: Float32Array.from({ length: width * height }, (_, i) => luma(i % width, Math.floor(i / width))),
  }
}

test('white noise has its variance as power in every ring', () => {
  const random = gaussian(1)
  const rings = ringSpectrum(
    patch(180, 120, () => 128 + 6 * random()),
    0.05,
  )
  const far = rings.filter(({ power }) => Math.abs(power / 36 - 1) > 0.4)
  expect(far).toEqual([])
  // Finer rings hold thousands of frequencies each.
  expect((rings.at(-1)?.power ?? 0) / 36).toBeCloseTo(1, 1)
})

test.each([
  [0.06, 0],
  [0.11, Math.PI / 2],
  [0.2, 0.7],
  [0.35, 2.2],
])('a wave of %f cycles per pixel at %f rad stands in the ring of that frequency', (frequency, angle) => {
  const wave = patch(200, 140, (x, y) =>
    Math.cos(2 * Math.PI * frequency * (x * Math.cos(angle) + y * Math.sin(angle))),
  )
  const rings = ringSpectrum(wave, 0.03)
  const strongest = rings.reduce((a, b) => (b.power > a.power ? b : a))
  // Rings are a sixth of an octave wide.
  expect(Math.abs(Math.log2(strongest.frequency / frequency))).toBeLessThan(1 / 6)
})

// A straight step has a power of 1/f² across and none along: 1/f³ on the mean over a ring (from memory; follows from the
// transform of a step, 1 / (2 pi i f)).
test('the power of a slanted edge falls with the third power of the frequency', () => {
  const edge = patch(256, 256, (x, y) => {
    const across = (x - 128) * Math.cos(0.4) + (y - 128) * Math.sin(0.4)
    return 255 / (1 + Math.exp(-across / 0.15))
  })
  const rings = ringSpectrum(edge, 0.03).filter(({ frequency }) => frequency < 0.15)
  const first = rings[0]
  const last = rings.at(-1)
  if (!first || !last) throw new Error('There are no rings.')
  const slope = Math.log(last.power / first.power) / Math.log(last.frequency / first.frequency)
  expect(Math.abs(slope + 3)).toBeLessThan(0.2)
})

test('a flat patch has no power, and a tiny one no rings', () => {
  for (const { power } of ringSpectrum(
    patch(64, 64, () => 77),
    0.05,
  )) {
    expect(power).toBeLessThan(1e-9)
  }
  expect(
    ringSpectrum(
      patch(7, 64, () => 77),
      0.05,
    ),
  ).toEqual([])
  expect(
    ringSpectrum(
      patch(0, 0, () => 77),
      Infinity,
    ),
  ).toEqual([])
})
