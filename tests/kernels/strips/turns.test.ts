import { expect, test } from 'vitest'
import { stripKernels } from '../../../src/kernels/strips/sides.ts'
import { type TurnEvidence, turnEvidence } from '../../../src/kernels/strips/turns.ts'
import { seeded } from '../../random.ts'

const [AWAY, NOISE, LEAST_DETAIL] = [3, 1.5, 0.75]
const next = seeded(11)

/** Luma that changes over several px, with grain, codes. */
function surface(length: number, depth: number): Float64Array {
  const [a, b, c] = [next(), next(), next()]
  return Float64Array.from({ length: length * depth }, (_, i) => {
    const [x, y] = [i % length, Math.floor(i / length)]
    return (
      110 +
      60 * Math.sin(0.3 * x + 6 * a) * Math.cos(0.2 * y + 6 * b) +
      25 * Math.sin(0.9 * y + 6 * c) +
      8 * next()
    )
  })
}

function stripOf(luma: Float64Array, length: number, depth: number) {
  const sixteenths = Int16Array.from(luma, (value) => Math.round(16 * value))
  return { luma: stripKernels.memory.put(sixteenths), length, depth }
}

// The definition in plain TypeScript, in double precision, on the strip itself.
function defined(
  luma: Float64Array,
  [length, depth]: readonly [number, number],
  { start, slope, first, bins }: { start: number; slope: number; first: number; bins: number },
  { size, blocks, reach, isMean }: { size: number; blocks: number; reach: number; isMean: boolean },
): TurnEvidence {
  const at = (x: number, row: number) => {
    const [column, top] = [Math.floor(x), Math.floor(row)]
    const pixel = (right: number, down: number) => luma[(top + down) * length + column + right] as number
    const along = (down: number) => pixel(0, down) * (1 - x + column) + pixel(1, down) * (x - column)
    return along(0) * (1 - row + top) + along(1) * (row - top)
  }
  const upright = 1 / (1 + slope * slope)
  const all = { mirrored: 0, mirroredMost: 0, repeated: 0, repeatedMost: 0 }
  for (let bin = 0; bin < bins; bin++) {
    const from = first + bin * size + (size / blocks - 8) / 2
    const last = from + ((blocks - 1) * size) / blocks + 8
    const ends = [from, last].map((position) => (start + slope * position) * upright)
    const far = Math.min(
      reach,
      Math.floor(Math.min(...ends)),
      depth - Math.ceil(Math.max(...ends)) - AWAY - 2,
    )
    let [mirrored, further, nearer, outward, inward, lateral, read] = [0, 0, 0, 0, 0, 0, 0]
    for (let k = 0; far >= 2 && k < blocks; k++) {
      const u = from + (k * size) / blocks
      const edgeAt = (position: number) => (start + slope * (position + 0.5)) * upright
      const base = Math.floor(Math.min(edgeAt(u), edgeAt(u + 7)))
      const columns = [base - far, base + far + AWAY + 1].map((row) => u - row * slope)
      if (base - far < 0 || base + far + AWAY + 1 >= depth) continue
      if (Math.min(...columns) < far + 2 || Math.max(...columns) > length - 12 - far) continue
      read++
      for (let lane = 0; lane < 8; lane++) {
        const edge = edgeAt(u + lane)
        // The rows next to the one that is looked at are shifted as they lie.
        const value = (row: number) => {
          const top = Math.floor(row)
          const of = (r: number) => at(u + lane - r * slope, r)
          return of(top) * (1 - row + top) + of(top + 1) * (row - top)
        }
        const outer = 0.75 * value(edge - 1) + 0.25 * value(edge - 2)
        const inner = 0.75 * value(edge) + 0.25 * value(edge + 1)
        for (let i = 0; i < far; i++) {
          const outside = value(edge - 1 - i)
          mirrored += (value(edge + i) - outside) ** 2
          further += (value(edge + i + AWAY) - outside) ** 2
          if (AWAY - i <= far && 2 * i + 1 !== AWAY) nearer += (value(edge + i - AWAY) - outside) ** 2
          if (i === 0) continue
          outward += (outside - outer) ** 2
          inward += (value(edge + i) - inner) ** 2
          const row = base - 1 - i
          const column = Math.floor(u - row * slope + 0.5) + lane
          const off = (x: number) => Math.abs((luma[row * length + x] as number) - outer)
          lateral += Math.min(off(column - i - 1), off(column + i + 1)) ** 2
        }
      }
    }
    if (read === 0) continue
    if (2 * far > AWAY) nearer *= far / (far - 1)
    const places = 8 * read * far
    const others = 8 * read * (far - 1)
    const mean = Math.sqrt((further / places + NOISE) * (nearer / places + NOISE)) - NOISE
    const tell = (filled: number, otherwise: number, found: 'mirrored' | 'repeated') => {
      const detail = Math.max(filled, otherwise)
      if (detail < LEAST_DETAIL) return
      const most = Math.log((detail + NOISE) / NOISE)
      all[found] += Math.max(-most, Math.log((otherwise + NOISE) / (filled + NOISE)))
      all[`${found}Most`] += most
    }
    tell(mirrored / places, isMean ? mean : Math.min(further, nearer) / places, 'mirrored')
    tell(outward / others, Math.min(inward, lateral) / others, 'repeated')
  }
  return all
}

// Sixteenths of a code and fractions of 15 bits leave a few thousandths of what could tell.
test.each([
  { length: 200, depth: 40, slope: 0.08, start: -4, blocks: 1, reach: 12, isMean: true },
  { length: 200, depth: 40, slope: -0.05, start: 14, blocks: 2, reach: 12, isMean: false },
  { length: 300, depth: 90, slope: 0.11, start: -2, blocks: 2, reach: 40, isMean: false },
  { length: 200, depth: 40, slope: 0.003, start: 2.4, blocks: 1, reach: 24, isMean: true },
])('evidence of a strip of $length x $depth px along a line of slope $slope from $start', (options) => {
  const { length, depth, slope, start, blocks, reach, isMean } = options
  const luma = surface(length, depth)
  const size = 16
  const line = { start, slope, first: 0, bins: Math.floor(length / size) }
  const look = { size, blocks, reach, isMean, away: AWAY, noise: NOISE, leastDetail: LEAST_DETAIL }
  const strip = stripOf(luma, length, depth)
  const [found] = turnEvidence(strip, [line], look)
  const expected = defined(luma, [length, depth], line, look)
  const { mirroredMost, repeatedMost } = expected
  expect(mirroredMost).toBeGreaterThan(10)
  expect(repeatedMost).toBeGreaterThan(10)
  for (const name of ['mirrored', 'mirroredMost', 'repeated', 'repeatedMost'] as const)
    expect(Math.abs((found?.[name] as number) - expected[name]), name).toBeLessThanOrEqual(
      0.004 * Math.max(mirroredMost, repeatedMost),
    )
})

test('lines are read one by one', () => {
  const strip = stripOf(surface(128, 40), 128, 40)
  const lines = [3, 6, 9].map((start) => ({ start, slope: 0.01, first: 4, bins: 7 }))
  const look = {
    size: 16,
    blocks: 2,
    reach: 12,
    isMean: false,
    away: AWAY,
    noise: NOISE,
    leastDetail: LEAST_DETAIL,
  }
  expect(turnEvidence(strip, lines, look)).toEqual(lines.flatMap((line) => turnEvidence(strip, [line], look)))
  expect(turnEvidence(strip, [], look)).toEqual([])
})
