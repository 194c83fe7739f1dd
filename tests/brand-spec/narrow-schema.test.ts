import { expect, test } from 'vitest'
import { loadSpec } from '../../src/brand-spec/load.ts'
import { narrowSchema } from '../../src/brand-spec/narrow-schema.ts'
import { specSchema } from '../../src/brand-spec/schema.ts'
import { ALL_RULES } from '../../src/rules/delivery-index.ts'

const schema = specSchema(ALL_RULES)

test('only the keys that the spec uses, in general or for a deliverable', () => {
  const narrow = narrowSchema(schema, {
    brand: 'X',
    tilt: {},
    deliverables: { web: { headroom: {} }, print: null },
  })
  expect(Object.keys(narrow.properties ?? {}).sort()).toEqual(['brand', 'deliverables', 'headroom', 'tilt'])
  expect(Object.keys(narrow.definitions?.deliverable?.properties ?? {}).sort()).toEqual(['headroom', 'tilt'])
  expect(narrow.required).toEqual(schema.required)
})

test.each([[null], ['text'], [[]], [{ deliverables: 'none' }]])(
  'a spec that is %j is left to be refused',
  (spec) => {
    expect(narrowSchema(schema, spec).additionalProperties).toBe(false)
  },
)

test('what it refuses is explained by the whole schema: a key that is misspelled finds its like', () => {
  const loaded = loadSpec('brand: X\nversion: 1\nheadrom: { min: 4 }\n', 'brand.yaml', ALL_RULES)
  expect('problems' in loaded && loaded.problems.map(({ message }) => message).join()).toContain('headroom')
})
