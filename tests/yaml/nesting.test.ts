import { describe, expect, test } from 'vitest'
import { nestedBeyond } from '../../src/yaml/nesting.ts'

test('levels are counted, whatever makes them', () => {
  for (const yaml of ['a: { b: [c] }', 'a:\n  b:\n    - c', '- - - c', '? ? ? c', '[[[c]]]']) {
    expect(nestedBeyond(yaml, 2), yaml).not.toBeNull()
    expect(nestedBeyond(yaml, 3), yaml).toBeNull()
  }
})

test('the place is that of the first part that lies too deep', () => {
  expect(nestedBeyond('a: 1\nb: [[[c]]]', 2)).toBe('a: 1\nb: [['.length)
})

test('what can not be read as YAML has levels too', () => {
  expect(nestedBeyond('[[[[', 2)).not.toBeNull()
  expect(nestedBeyond('a: "b', 2)).toBeNull()
})

// 128 KiB is what a spec may have. The parser that makes values of it ended the process at 40,000 dashes.
describe('as deep as a spec can be long, it takes no stack', () => {
  test.each(['[', '- ', '{a: ', '? ', 'a: [', '? - ', '{? '])('%j', (opening) => {
    const yaml = opening.repeat(Math.floor((128 * 1024) / opening.length))
    expect(nestedBeyond(yaml, 30)).not.toBeNull()
  })
})
