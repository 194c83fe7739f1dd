import { expect, test } from 'vitest'
import { NONE, RINGS_PER_OCTAVE, ringsOf } from '../../../../src/measure/finish/focus/rings-of.ts'

test('each frequency of a real transform counts once, with those of opposite sign', () => {
  const [columns, rows] = [64, 32]
  const { ringAt, bins, frequencies } = ringsOf(columns, rows)
  const counts = new Map<number, number>()
  // All frequencies of the full transform, as signed numbers of periods.
  for (let u = -columns / 2 + 1; u <= columns / 2; u++) {
    for (let v = -rows / 2 + 1; v <= rows / 2; v++) {
      const frequency = Math.hypot(u / columns, v / rows)
      const ring = ringAt[Math.abs(u) * (rows / 2 + 1) + Math.abs(v)] as number
      expect(ring === NONE).toBe(frequency > 0.5 || frequency === 0)
      if (ring === NONE) continue
      counts.set(ring, (counts.get(ring) ?? 0) + 1)
      // On the border between two rings rounding decides.
      const half = 0.5 / RINGS_PER_OCTAVE + 1e-9
      const middle = 0.5 * 2 ** (-(ring + 0.5) / RINGS_PER_OCTAVE)
      expect(Math.abs(Math.log2(frequency / middle))).toBeLessThan(half)
      expect(Math.abs(Math.log2((frequencies[ring] as number) / middle))).toBeLessThan(half)
    }
  }
  for (const [ring, count] of counts) expect(bins[ring]).toBe(count)
  expect(ringsOf(columns, rows)).toBe(ringsOf(columns, rows))
})
