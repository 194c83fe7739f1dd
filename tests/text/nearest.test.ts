import { expect, test } from 'vitest'
import { didYouMean, nearest } from '../../src/text/nearest.ts'

const RULES = [
  'headroom',
  'eye-line',
  'head-height',
  'tilt',
  'background-lightness',
  'background-tint',
  'web',
]

test.each([
  ['headrom', 'headroom'],
  ['Headroom', 'headroom'],
  ['head_height', 'head-height'],
  ['headHeight', 'head-height'],
  ['eyeline', 'eye-line'],
  ['eye line', 'eye-line'],
  ['tild', 'tilt'],
  ['background-tnit', 'background-tint'],
  ['backgroundLightness', 'background-lightness'],
  ['height', null],
  // One slip is what a word of three letters may have.
  ['wbe', 'web'],
  ['bwe', null],
  ['zebra', null],
  ['', null],
  ['x'.repeat(100_000), null],
])('%s: %s', (word, meant) => {
  expect(nearest(word, RULES)).toBe(meant)
})

test('the sentence ends with a question or a full stop', () => {
  expect(didYouMean('tild', RULES)).toBe('; did you mean tilt?')
  expect(didYouMean('zebra', RULES)).toBe('.')
})
