import { expect, test } from 'vitest'
import { commonLine, countEnding, fillSums, runsWithin } from '../../../src/kernels/strips/fills.ts'
import { stripKernels } from '../../../src/kernels/strips/sides.ts'
import { seeded } from '../../random.ts'

const next = seeded(11)
type Planes = readonly [Uint8Array, Uint8Array, Uint8Array]
const laid = ([r, g, b]: Planes) =>
  [stripKernels.memory.put(r), stripKernels.memory.put(g), stripKernels.memory.put(b)] as const
const random = (count: number, most: number) => Float32Array.from({ length: count }, () => most * next())

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
  const strip = { planes: laid(planes), length, depth }
  expect(runsWithin(strip, color, tolerances).map((runs) => [...runs])).toEqual(expected)
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
  const line = { start, slope }
  const found = fillSums({ planes: laid(planes), length }, [line, line], color, look)
  expect([...found]).toEqual([...expected, ...expected])
  expect(expected.some((value) => value > 1000)).toBe(true)
})

// To the last bit: the same steps in the same order, in double precision.
test.each([
  ['from the start', 0],
  ['from the end', 200],
])('the line on which most runs end, %s', (_, origin) => {
  const [length, depth, stride] = [200, 30, 4]
  const sign = origin === 0 ? -1 : 1
  const runs = Uint8Array.from({ length }, (_, t) =>
    next() < 0.3 ? 32 * next() : Math.max(0, 20 + sign * 0.06 * (t - origin)),
  )
  const ending = [...runs].map((run) => run >= 1 && run < depth)
  expect(countEnding(runs, depth)).toBe(ending.filter(Boolean).length)
  const slopes = Float64Array.from({ length: 8 }, (_, k) => sign * 0.02 * k)
  let most = 0
  let expected = null
  for (const slope of slopes) {
    const votes = new Map<number, number>()
    for (let t = 0; t < length; t += stride) {
      const bin = Math.round((runs[t] as number) - slope * (t - origin))
      if (ending[t] && bin < 2 * depth) votes.set(bin, (votes.get(bin) ?? 0) + 1)
    }
    for (let bin = 1; bin < 2 * depth; bin++) {
      const sum = [bin - 1, bin, bin + 1].reduce((all, each) => all + (votes.get(each) ?? 0), 0)
      if (sum <= most) continue
      most = sum
      expected = { start: bin - slope * origin, slope }
    }
  }
  expect(Math.abs(expected?.slope ?? 0)).toBeCloseTo(0.06, 10)
  expect(commonLine(runs, depth, slopes, { origin, stride })).toEqual(expected)
  expect(commonLine(new Uint8Array(length), depth, slopes, { origin, stride })).toBeNull()
})
