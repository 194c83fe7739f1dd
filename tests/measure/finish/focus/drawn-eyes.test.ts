import { expect, test } from 'vitest'
import { blurred } from './drawn-eyes.ts'

// The ruler of the tests: the spread of a blurred step is the standard deviation of its differences.
test.each([0.8, 1, 1.7, 3, 6])('a step blurred by %f px is as wide as that', async (sigma) => {
  const [width, height] = [160, 5]
  const step = Uint8Array.from({ length: 3 * width * height }, (_, i) =>
    Math.floor(i / 3) % width < width / 2 ? 0 : 255,
  )
  const { data } = await blurred({ data: step, width, height }, sigma)
  const row = (x: number) => data[3 * (2 * width + x)] as number
  let [mean, square] = [0, 0]
  for (let x = 1; x < width; x++) {
    const share = (row(x) - row(x - 1)) / 255
    mean += share * x
    square += share * x * x
  }
  expect(Math.abs(Math.sqrt(square - mean * mean) / sigma - 1)).toBeLessThan(0.02)
})
