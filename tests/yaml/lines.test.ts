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

  test('100,000 spaces take no time', () => {
    const start = performance.now()
    expect(restOfLine(`b${' '.repeat(100_000)}c`, 0)).toHaveLength(100_002)
    expect(performance.now() - start).toBeLessThan(500)
  })
})

test('where a line and the next one begin', () => {
  expect(firstOfLine('a\n  b: c', 7)).toBe(4)
  expect(nextLine('a\n\n  b', 0)).toBe(5)
  expect(nextLine('a\n\n', 0)).toBeNull()
})
