import { expect, test } from 'vitest'
import { LineIndex } from '../../src/yaml/line-index.ts'

test.each([
  ['', 0, 1, 1],
  ['ab\ncd', 0, 1, 1],
  ['ab\ncd', 2, 1, 3],
  ['ab\ncd', 3, 2, 1],
  ['ab\ncd', 5, 2, 3],
  ['ab\r\ncd', 4, 2, 1],
  ['\n\n', 2, 3, 1],
  ['\n\nx', 2, 3, 1],
])('%j at %i: %i:%i', (text, offset, line, column) => {
  expect(new LineIndex(text).placeOf(offset)).toEqual({ line, column })
})
