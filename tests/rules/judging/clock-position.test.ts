import { expect, test } from 'vitest'
import { clockPosition } from '../../../src/rules/judging/clock-position.ts'

// A clock face: 12 above, 3 at the right.
test.each([
  [0, -0.5, "12 o'clock"],
  [0.5, 0, "3 o'clock"],
  [0, 0.5, "6 o'clock"],
  [-0.5, 0, "9 o'clock"],
  [-0.43, -0.25, "10 o'clock"],
  [0.25, -0.43, "1 o'clock"],
  [-0.01, -0.6, "12 o'clock"],
  [0.05, 0.05, 'the center'],
] as const)('%f across, %f down', (across, down, said) => {
  expect(clockPosition({ across, down })).toBe(said)
})
