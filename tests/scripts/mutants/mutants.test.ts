import { describe, expect, test } from 'vitest'
import { mutantsOf, mutated } from '../../../scripts/mutants/mutants.ts'

/** All that a source is changed to, a change at a time. */
const slips = (source: string) => mutantsOf('a.ts', source).map((mutant) => mutated(source, mutant))

describe('slips', () => {
  test.each([
    ['a < b', ['a <= b']],
    ['a === b', ['a !== b']],
    ['a + b', ['a - b']],
    ['a && b', ['a || b']],
    ['a ?? b', ['a']],
    ['!a', ['a']],
    ['-a', ['a']],
    ['7', ['8']],
    ['true', ['false']],
    ['a ? b : c', ['true ? b : c', 'false ? b : c']],
    ['f(a)', []],
  ])('of %s', (expression, found) => {
    expect(slips(`const x = ${expression}`)).toEqual(found.map((one) => `const x = ${one}`))
  })

  test('a branch that is always or never taken, and a statement that is gone', () => {
    expect(slips('if (a) b()')).toEqual(['if (true) b()', 'if (false) b()', 'if (a) ;'])
  })

  test('none in types, imports and texts', () => {
    expect(slips("import a from './a.ts'\ntype B = 1 | true\nconst c: 'x' | 2 = 'x + y < z'")).toEqual([])
  })

  test('each within its line', () => {
    expect(mutantsOf('a.ts', 'const a = 1\nconst b = 2').map(({ line }) => line)).toEqual([1, 2])
  })
})

test('what is no code is an error that names the file', () => {
  expect(() => mutantsOf('a.ts', 'const const')).toThrow(/^a\.ts: /)
})
