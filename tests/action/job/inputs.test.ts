import { expect, test } from 'vitest'
import { readInputs, variable } from '../../../src/action/job/inputs.ts'

test('defaults', () => {
  expect(readInputs({})).toMatchObject({ spec: 'brand.yaml', paths: ['.'], strict: false, merge: [] })
})

test('paths stand one a line', () => {
  expect(readInputs({ [variable('paths')]: ' a b \r\n\nc\n' }).paths).toEqual(['a b', 'c'])
})

test.each([
  ['strict', 'yes', 'The input strict is "yes"; it should be true or false.'],
  ['only-changed', '1', 'The input only-changed is "1"; it should be true or false.'],
])('%s: %s is refused', (name, value, sentence) => {
  expect(() => readInputs({ [variable(name)]: value })).toThrow(sentence)
})

test.each([
  ['seal', 'true', 'only-changed', 'true'],
  ['seal', 'true', 'shard', '1/2'],
  ['receive', 'a.zip', 'merge', 'parts'],
  ['receive', 'a.zip', 'only-changed', 'true'],
  ['receive', 'a.zip', 'seal', 'true'],
])('%s of less than a whole delivery is refused: %s with %s', (whole, value, other, otherValue) => {
  const env = { [variable(whole)]: value, [variable(other)]: otherValue }
  expect(() => readInputs(env)).toThrow('cannot be combined')
})

test('a part of what changed is refused', () => {
  const env = { [variable('only-changed')]: 'True', [variable('shard')]: '1/2' }
  expect(() => readInputs(env)).toThrow('cannot be combined')
})
