import { expect, test } from 'vitest'
import { fillSums, mirrorSums, repeatSums, runsWithin } from '../../src/kernels/strips.ts'
import { seeded } from '../random.ts'

const next = seeded(11)
const random = (count: number, most: number) => Float32Array.from({ length: count }, () => most * next())

// The definitions in plain TypeScript, in double precision; single precision keeps seven digits.
test.each([
  [130, 20, 0.08, -2, 4, 6],
  [130, 20, -0.05, 7, 4, 48],
  [64, 50, 0.4, 2, 1, 48],
  [64, 50, 0, 12, 8, 6],
])(
  'a strip of %i x %i px mirrored in a line of slope %f from %f',
  (length, depth, slope, start, stride, reach) => {
    const luma = random(length * depth, 255)
    const [size, away, soon, later] = [16, 3, 6, 20]
    const at = (position: number, inward: number) => {
      const x = Math.max(0, Math.min(length - 1.001, position))
      const y = Math.max(0, Math.min(depth - 1.001, inward - 0.5))
      const [column, row] = [Math.floor(x), Math.floor(y)]
      const pixel = (right: number, down: number) => luma[(row + down) * length + column + right] as number
      const along = (down: number) => pixel(0, down) * (1 - x + column) + pixel(1, down) * (x - column)
      return along(0) * (1 - y + row) + along(1) * (y - row)
    }
    const bins = Math.floor(length / size)
    const expected = Array.from({ length: bins }, (_, bin) => {
      const far = Math.min(reach, Math.floor(start + slope * (bin * size + size / 2)))
      const step = 1 + Number(far > soon) + Number(far > later)
      let [mirrored, further, nearer, places] = [0, 0, 0, 0]
      for (let t = bin * size; far >= 2 && t < (bin + 1) * size; t += stride) {
        const edge = start + slope * (t + 0.5)
        for (let a = 0.5; a < far; a += step) {
          if (edge + a < away + 0.5) continue
          const off = (inward: number) => (at(t, edge - a) - at(t - 2 * a * slope, inward)) ** 2
          mirrored += off(edge + a)
          further += off(edge + a + away)
          nearer += off(edge + a - away)
          places++
        }
      }
      return [mirrored, Math.min(further, nearer), places]
    }).flat()
    const look = { size, stride, reach, away, soon, later }
    const [found] = mirrorSums({ luma, length, depth }, [{ start, slope, first: 0, bins }], look)
    expect(found).toHaveLength(expected.length)
    for (const [k, value] of expected.entries())
      expect(Math.abs((found?.[k] as number) - value)).toBeLessThanOrEqual(1e-4 * value)
    expect(expected.some((value) => value > 1000)).toBe(true)
  },
)

test.each([
  [130, 20, 0.08, -2, 4, 12],
  [130, 20, -0.05, 7, 4, 48],
  [64, 50, 0.4, 2, 1, 48],
])(
  'a strip of %i x %i px that repeats a line of slope %f from %f',
  (length, depth, slope, start, stride, reach) => {
    const luma = random(length * depth, 255)
    const [size, soon, later, clear, nearest] = [16, 6, 20, 0.75, 1.5]
    const at = (position: number, inward: number) => {
      const x = Math.max(0, Math.min(length - 1.001, position))
      const y = Math.max(0, Math.min(depth - 1.001, inward - 0.5))
      const [column, row] = [Math.floor(x), Math.floor(y)]
      const pixel = (right: number, down: number) => luma[(row + down) * length + column + right] as number
      const along = (down: number) => pixel(0, down) * (1 - x + column) + pixel(1, down) * (x - column)
      return along(0) * (1 - y + row) + along(1) * (y - row)
    }
    const bins = Math.floor(length / size)
    const expected = Array.from({ length: bins }, (_, bin) => {
      const far = Math.min(reach, Math.floor(start + slope * (bin * size + size / 2)))
      const step = 1 + Number(far > soon) + Number(far > later)
      const sums = [0, 0, 0, 0] as [number, number, number, number]
      for (let t = bin * size; far >= 2 && t < (bin + 1) * size; t += stride) {
        const edge = start + slope * (t + 0.5)
        const outer = at(t - clear * slope, edge - clear)
        const inner = at(t + clear * slope, edge + clear)
        for (let a = nearest; a < far; a += step) {
          sums[0] += (at(t + a * slope, edge - a) - outer) ** 2
          sums[1] += (at(t - a * slope, edge + a) - inner) ** 2
          sums[2] += Math.min(
            (at(t + a * slope - a, edge - a) - outer) ** 2,
            (at(t + a * slope + a, edge - a) - outer) ** 2,
          )
          sums[3]++
        }
      }
      return sums
    }).flat()
    const look = { size, stride, reach, soon, later, clear, nearest }
    const [found] = repeatSums({ luma, length, depth }, [{ start, slope, first: 0, bins }], look)
    expect(found).toHaveLength(expected.length)
    for (const [k, value] of expected.entries())
      expect(Math.abs((found?.[k] as number) - value)).toBeLessThanOrEqual(1e-4 * value)
    expect(expected.some((value) => value > 1000)).toBe(true)
  },
)

test('lines are read one by one', () => {
  const luma = random(64 * 20, 255)
  const lines = [3, 6, 9].map((start) => ({ start, slope: 0.01, first: 4, bins: 3 }))
  const look = { size: 16, stride: 4, reach: 12, away: 3, soon: 6, later: 20 }
  const strip = { luma, length: 64, depth: 20 }
  expect(mirrorSums(strip, lines, look)).toEqual(lines.flatMap((line) => mirrorSums(strip, [line], look)))
  expect(mirrorSums(strip, [], look)).toEqual([])
})

test.each([
  [16, 9],
  [37, 255],
  [3, 1],
])('runs of %i columns and %i rows', (length, depth) => {
  const color = [120, 7, 250] as const
  const tolerances = [1, 4, 16]
  // Mostly within the tolerances, so that runs end at all depths.
  const planes = color.map((code) =>
    Uint8Array.from({ length: length * depth }, () =>
      Math.max(0, Math.min(255, Math.round(code + 40 * (next() - 0.5) ** 5 * 16))),
    ),
  ) as [Uint8Array, Uint8Array, Uint8Array]
  const expected = tolerances.map((tolerance) =>
    Array.from({ length }, (_, x) => {
      let run = 0
      const isWithin = (d: number) =>
        planes.every(
          (plane, k) => Math.abs((plane[d * length + x] as number) - (color[k] as number)) <= tolerance,
        )
      while (run < depth && isWithin(run)) run++
      return run
    }),
  )
  expect(runsWithin({ planes, length, depth }, color, tolerances).map((runs) => [...runs])).toEqual(expected)
})

// To the last bit: the same steps in the same order, in double precision.
test.each([
  [0.05, -1],
  [-0.04, 6],
  [0, 3],
])('a strip filled with a color outside of a line of slope %f from %f', (slope, start) => {
  const [length, depth, size, read, clear, rows] = [130, 24, 16, 4, 1, 8]
  const planes = [1, 2, 3].map(() => Uint8Array.from(random(length * depth, 256))) as [
    Uint8Array,
    Uint8Array,
    Uint8Array,
  ]
  const color = [200, 30, 7] as const
  const look = { bins: Math.floor(length / size), size, read, deepest: depth - 6, clear, rows }
  const expected = Array.from({ length: look.bins }, (_, bin) => {
    let [without, within, n] = [0, 0, 0]
    const middle = start + slope * (bin * size + size / 2)
    for (let k = 0; k < read && middle >= 0.5 && middle <= look.deepest; k++) {
      const t = bin * size + Math.floor((k * size) / read)
      const edge = start + slope * (t + 0.5)
      const last = Math.ceil(edge + 0.5)
      const inside = Math.max(0, Math.ceil(edge + clear)) * length + t
      for (const [c, plane] of planes.entries()) {
        const beyond = ((plane[inside] as number) + (plane[inside + length] as number)) / 2
        for (let d = Math.max(0, last - rows); d < last; d++, n++) {
          const off = (plane[d * length + t] as number) - beyond
          const filled = Math.max(0, Math.min(1, edge - d)) * ((color[c] as number) - beyond)
          without += off * off
          within += (off - filled) * (off - filled)
        }
      }
    }
    return [without, within, n]
  }).flat()
  const [found] = fillSums({ planes, length, depth }, [{ start, slope }], color, look)
  expect([...(found ?? [])]).toEqual(expected)
  expect(expected.some((value) => value > 1000)).toBe(true)
})
