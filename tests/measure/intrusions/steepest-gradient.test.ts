import { expect, test } from 'vitest'
import { steeperThan, steepestGradient } from '../../../src/measure/intrusions/steepest-gradient.ts'
import { seeded } from '../../random.ts'

const SIZE = 12
const ramp = (right: number, down: number) =>
  Float32Array.from({ length: SIZE * SIZE }, (_, i) => right * (i % SIZE) + down * Math.floor(i / SIZE))
const flat = ramp(0, 0)
const picture = (L: Float32Array, a = flat, b = flat) => ({ lab: { L, a, b }, width: SIZE, height: SIZE })

test('the gradient of a ramp, at the border too', () => {
  for (const y of [0, 5, SIZE - 1])
    for (let x = 0; x < SIZE; x++)
      expect(steepestGradient(picture(ramp(3, 4)), x, y)).toEqual({ dx: 3, dy: 4, size: 5 })
})

test('the plane that changes fastest is told', () => {
  const { dx, dy } = steepestGradient(picture(ramp(1, 0), ramp(0, 2), ramp(-1.5, 0)), 6, 6)
  expect([dx, dy]).toEqual([0, 2])
})

test('all pixels of some rows that are steep are found, but for the outermost columns', () => {
  const next = seeded(5)
  const noise = () => Float32Array.from({ length: SIZE * SIZE }, () => 100 * next())
  const noisy = picture(noise(), noise(), noise())
  const sizes = Array.from(
    { length: SIZE * SIZE },
    (_, i) => steepestGradient(noisy, i % SIZE, Math.floor(i / SIZE)).size,
  )
  const isInside = (i: number) => i % SIZE > 0 && i % SIZE < SIZE - 1 && i >= 2 * SIZE && i < 9 * SIZE
  for (const least of [5, 15, 25]) {
    const expected = [...sizes.keys()].filter((i) => isInside(i) && (sizes[i] as number) >= least)
    expect([...steeperThan(noisy, 2, 9, least)]).toEqual(expected)
    expect(expected.length).toBeGreaterThan(0)
  }
})
