import { expect, test } from 'vitest'
import { relatedTests } from '../../../scripts/mutants/related-tests.ts'

const TESTS = [
  'tests/report/csv.test.ts',
  'tests/rules/sitter/tilt.test.ts',
  'tests/rules/judging/band.test.ts',
  'tests/measure/picture.test.ts',
  'tests/yaml/lines.test.ts',
]
const testsOf = relatedTests(TESTS)

test('those that reach a file come with the nearest first', () => {
  expect(testsOf('src/rules/judging/band.ts')[0]).toBe('tests/rules/judging/band.test.ts')
  expect(testsOf('src/rules/sitter/tilt.ts')[0]).toBe('tests/rules/sitter/tilt.test.ts')
  expect(testsOf('src/yaml/lines.ts')).toContain('tests/yaml/lines.test.ts')
})

test('those that draw come last, and what imports types alone is not reached', () => {
  expect(testsOf('src/measure/picture.ts')).toEqual(['tests/measure/picture.test.ts'])
  expect(testsOf('src/measure/schema/confidence.ts').at(-1)).toBe('tests/measure/picture.test.ts')
  expect(testsOf('src/rules/contract/finding.ts')).not.toContain('tests/yaml/lines.test.ts')
})

test('a file that no test reaches has none', () => {
  expect(testsOf('src/cli.ts')).toEqual([])
})
