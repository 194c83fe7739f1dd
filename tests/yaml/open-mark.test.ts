import { expect, test } from 'vitest'
import { openMark } from '../../src/yaml/open-mark.ts'

test.each([
  ['a: { b: 1', '{', 3],
  ['a: { b: [1, 2', '[', 8],
  ['a: { b: 1 }', null, 0],
  ['a: "x', '"', 3],
  ['a: "x\\"', '"', 3],
  ['a: "x" # {', null, 0],
  ["a: 'it''s", "'", 3],
  ["a: 'it''s'", null, 0],
  ["a: don't {", null, 0],
  ['a: x{y', null, 0],
  ['a: { b: #fff }', '#', 8],
  ['a: { b: x#fff }', null, 0],
  ['a: #fff', null, 0],
  ['a: { b: # note', '{', 3],
  ['- [', '[', 2],
])('%s: %s', (yaml, mark, at) => {
  const open = openMark(yaml, yaml.length)
  expect(open && [open.mark, open.at]).toEqual(mark && [mark, at])
})
