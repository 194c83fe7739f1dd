import { describe, expect, test } from 'vitest'
import { firstOfLine, nextLine, restOfLine } from '../../src/yaml/lines.ts'

describe('the rest of a line', () => {
  test.each([
    ['a: b # why', 3, 'b'],
    ['a: b#c # why # not', 3, 'b#c'],
    ['a: #fff', 3, '#fff'],
    ['a: b   \nc', 3, 'b'],
    ['a: b\t# why', 3, 'b'],
    ['a: b#', 3, 'b#'],
  ])('%j from %i on', (yaml, at, rest) => expect(restOfLine(yaml, at)).toBe(rest))

  // A pattern that takes the square of their number would not come to an end.
  test('a million spaces', () => {
    expect(restOfLine(`b${' '.repeat(1_000_000)}c`, 0)).toHaveLength(1_000_002)
  })
})

test('where a line and the next one begin', () => {
  expect(firstOfLine('a\n  b: c', 7)).toBe(4)
  expect(nextLine('a\n\n  b', 0)).toBe(5)
  expect(nextLine('a\n\n', 0)).toBeNull()
})
