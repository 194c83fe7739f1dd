import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { Ajv } from 'ajv'
import { describe, expect, test } from 'vitest'
import { getLanguageService, type JSONSchema } from 'vscode-json-languageservice'
import { TextDocument } from 'vscode-languageserver-textdocument'
import { parse } from 'yaml'
import { generatedSchemas } from '../../scripts/generated.ts'
import { loadSpec } from '../../src/brand-spec/load.ts'
import { specSchema } from '../../src/brand-spec/schema.ts'
import { STARTER_SPEC } from '../../src/brand-spec/starter.ts'
import { isDeliveryRule } from '../../src/rules/contract/delivery-rule.ts'
import { ALL_RULES } from '../../src/rules/delivery-index.ts'

const schema = specSchema(ALL_RULES)

// The meta-schema of draft-07 (json-schema.org) as it ships in ajv.
const metaSchemaFile = createRequire(import.meta.url).resolve('ajv/dist/refs/json-schema-draft-07.json')
const metaSchema: object = JSON.parse(readFileSync(metaSchemaFile, 'utf8'))

describe('the generated schemas are sound draft-07', () => {
  test.each([...generatedSchemas()])('%s', (_, text) => {
    const ajv = new Ajv({ meta: false, strict: false, code: { optimize: false } })
    const validate = ajv.addMetaSchema(metaSchema).compile(metaSchema)
    validate(JSON.parse(text))
    expect(validate.errors ?? []).toEqual([])
    const options = { allowUnionTypes: true, code: { optimize: false } }
    expect(() => new Ajv(options).compile(JSON.parse(text))).not.toThrow()
  })
})

test('the schema has a key for every rule, with its words, in general and in deliverables', () => {
  expect(Object.keys(schema.properties ?? {})).toEqual([
    'brand',
    'version',
    'extends',
    'naming',
    'deliverables',
    ...ALL_RULES.map(({ id }) => id),
    'waivers',
    'masters',
    'prepare',
    'consent',
    'advisory',
  ])
  expect(Object.keys(schema.definitions?.deliverable?.properties ?? {})).toEqual(
    ALL_RULES.filter((rule) => !isDeliveryRule(rule)).map(({ id }) => id),
  )
  for (const { id, text } of ALL_RULES) expect(schema.definitions?.[id]?.description).toContain(text.title)
})

const HEAD = { brand: 'Osprey Lane Veterinary Group', version: 1 }
const SAMPLES: [string, unknown][] = [
  ['the starter', parse(STARTER_SPEC)],
  ['the least', HEAD],
  ['an empty deliverable', { ...HEAD, deliverables: { web: null } }],
  ...ALL_RULES.flatMap(({ id, text }): [string, unknown][] => [
    [`the example of ${id}`, { ...HEAD, ...parse(text.example), deliverables: { web: {} } }],
    [`${id} switched off`, { ...HEAD, [id]: false }],
    [`${id} as a rule never takes it`, { ...HEAD, [id]: { zebra: 1 } }],
    [`${id} without a value`, { ...HEAD, [id]: null }],
  ]),
  ['nothing', {}],
  ['no version', { brand: 'X' }],
  ['version 0', { ...HEAD, version: 0 }],
  ['an unknown key', { ...HEAD, zebra: 1 }],
  ['an unknown key in a deliverable', { ...HEAD, deliverables: { web: { zebra: 1 } } }],
  ['a rule for a deliverable', { ...HEAD, deliverables: { headroom: {} } }],
  ['a folder for a deliverable', { ...HEAD, deliverables: { 'a/b': {} } }],
  ['a band of two kinds', { ...HEAD, headroom: { min: 1, tolerance: 1 } }],
  ['a misspelled advisory rule', { ...HEAD, advisory: ['tild'] }],
  ['an advisory rule twice', { ...HEAD, advisory: ['tilt', 'tilt'] }],
  ['a field of no kind', { ...HEAD, naming: { pattern: '{family}', fields: { family: { digits: 'x' } } } }],
  [
    'a field of two kinds',
    { ...HEAD, naming: { pattern: '{family}', fields: { family: { digits: 5, case: 'lower' } } } },
  ],
  ['a field with a strange name', { ...HEAD, naming: { pattern: '{A B}', fields: { 'A B': {} } } }],
]

// The schema reader of an editor (npm vscode-json-languageservice): a second opinion on ajv's, and what users see.
const editor = getLanguageService({})

function opened(text: string) {
  const textDocument = TextDocument.create('file:///brand.json', 'json', 1, text)
  return { textDocument, jsonDocument: editor.parseJSONDocument(textDocument) }
}

describe('an editor and the loader agree', () => {
  test.each(SAMPLES)('%s', async (_, spec) => {
    const { textDocument, jsonDocument } = opened(JSON.stringify(spec))
    const found = await editor.doValidation(textDocument, jsonDocument, {}, schema as JSONSchema)
    const loaded = loadSpec(JSON.stringify(spec), 'brand.yaml', ALL_RULES)
    const told = 'problems' in loaded ? loaded.problems : []
    expect(found.length === 0, JSON.stringify({ found, told })).toBe(told.length === 0)
  })

  test('on good and on bad specs', () => {
    const good = SAMPLES.filter(
      ([, spec]) => 'spec' in loadSpec(JSON.stringify(spec), 'brand.yaml', ALL_RULES),
    )
    expect(good.length).toBeGreaterThan(2 * ALL_RULES.length)
    expect(SAMPLES.length - good.length).toBeGreaterThan(2 * ALL_RULES.length)
  })
})

describe('an editor', () => {
  const service = getLanguageService({ schemaRequestService: async () => JSON.stringify(schema) })
  service.configure({ schemas: [{ uri: 'file:///schema.json', fileMatch: ['*'] }] })

  async function completions(text: string): Promise<string[]> {
    const at = text.indexOf('|')
    const { textDocument, jsonDocument } = opened(text.replace('|', ''))
    const list = await service.doComplete(textDocument, textDocument.positionAt(at), jsonDocument)
    return (list?.items ?? []).map(({ label }) => label)
  }

  test('completes rules, in general and in a deliverable', async () => {
    expect(await completions('{ "|" }')).toEqual(expect.arrayContaining(['brand', 'headroom', 'advisory']))
    const within = await completions('{ "deliverables": { "web": { "|" } } }')
    expect(within).toContain('headroom')
    expect(within).not.toContain('brand')
  })

  test('completes options and values', async () => {
    expect(await completions('{ "headroom": { "|" } }')).toEqual(
      expect.arrayContaining(['min', 'max', 'target']),
    )
    expect(await completions('{ "advisory": [|] }')).toEqual(expect.arrayContaining(['"tilt"']))
    expect(await completions('{ "color-space": | }')).toEqual(expect.arrayContaining(['"sRGB"']))
  })

  test('explains a key', async () => {
    const { textDocument, jsonDocument } = opened('{ "headroom": { "min": 6 } }')
    const hover = await service.doHover(textDocument, textDocument.positionAt(5), jsonDocument)
    expect(JSON.stringify(hover?.contents)).toContain('Space above the head')
  })
})
