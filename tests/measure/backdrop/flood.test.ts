import { expect, test } from 'vitest'
import { groundFrom, SMEAR } from '../../../src/measure/backdrop/flood.ts'
import { seeded } from '../../random.ts'

/** The definition, slowly: what hangs together with the edge, then some steps through outlines. */
function slowly(distance: Float32Array, outline: Uint8Array, width: number, sides: number, reach: number) {
  const mask = new Uint8Array(distance.length)
  const near = (i: number) => distance[i] !== undefined && (distance[i] as number) <= 6 && i < reach * width
  const neighbors = (i: number) =>
    [i % width > 0 ? i - 1 : -1, i % width < width - 1 ? i + 1 : -1, i - width, i + width].filter(
      (k) => k >= 0 && k < mask.length,
    )
  const starts = [...mask.keys()].filter(
    (i) => i < width || (i < sides * width && (i % width === 0 || i % width === width - 1)),
  )
  let front = starts.filter((i) => outline[i] === 0 && near(i))
  while (front.length > 0) {
    for (const i of front) mask[i] = 1
    front = [...new Set(front.flatMap(neighbors))].filter((i) => mask[i] === 0 && outline[i] === 0 && near(i))
  }
  for (let step = 0; step < SMEAR; step++) {
    const next = [...mask.keys()].filter(
      (i) => mask[i] === 0 && outline[i] === 1 && near(i) && neighbors(i).some((k) => mask[k] === 1),
    )
    for (const i of next) mask[i] = 1
  }
  return mask
}

test('the flood is what the definition says, on random ground', () => {
  const random = seeded(17)
  for (const [width, height] of [
    [1, 1],
    [1, 9],
    [12, 1],
    [23, 31],
    [40, 17],
  ] as const) {
    for (const density of [0.1, 0.3, 0.45]) {
      const distance = Float32Array.from({ length: width * height }, () => (random() < density ? 20 : 5))
      const outline = Uint8Array.from(distance, () => (random() < density ? 1 : 0))
      for (const reach of [height, Math.ceil(0.6 * height)]) {
        const sides = Math.round(0.35 * height)
        const ground = groundFrom(outline, width, sides)
        ground.distance = distance
        ground.flood(6, reach, SMEAR)
        const expected = slowly(distance, outline, width, sides, reach)
        expect(ground.mask).toEqual(expected)
        const set = [...expected.keys()].filter((i) => expected[i] === 1)
        const step = Math.max(1, set.length / 50)
        const sampled = Array.from(
          { length: Math.floor(set.length / step) },
          (_, k) => set[Math.floor(k * step)],
        )
        expect([...ground.samples(50)]).toEqual(sampled)
      }
    }
  }
})
