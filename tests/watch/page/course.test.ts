import { expect, test } from 'vitest'
import { DRIFT_TRAITS, type DriftTrait } from '../../../src/session/drift-traits.ts'
import { courseStrip } from '../../../src/watch/page/course.ts'

const frame = (size: number) => ({
  ...{ file: `${size}.jpg`, at: 0, sitter: null },
  traits: Object.fromEntries(DRIFT_TRAITS.map((trait) => [trait, size])) as Record<DriftTrait, number>,
})

test.each([
  [10, 11.44, '+1.4 %'],
  [10, 10.01, '0 %'],
  [10, 9.99, '0 %'],
  [10, 8.8, '-1.2 %'],
])('from %f to %f has changed by %s', (first, last, words) => {
  const strip = courseStrip({ frames: [frame(first), frame(last)], drifts: [] }).text
  expect(strip).toContain(`Head size <span class="small">${words}</span>`)
})
