import { readFile } from 'node:fs/promises'
import { Ajv } from 'ajv'
import { build } from 'esbuild'
import { beforeAll, expect, test } from 'vitest'
import { parse } from 'yaml'
import { compiledSchemas } from '../../../scripts/package/compiled-schemas.ts'
import { fitsNaming } from '../../../src/brand-spec/fits-naming.ts'
import { fitsSpec } from '../../../src/brand-spec/fits-spec.ts'
import { specSchema } from '../../../src/brand-spec/schema.ts'
import { STARTER_SPEC } from '../../../src/brand-spec/starter.ts'
import { fitsGallery } from '../../../src/gallery/fits-gallery.ts'
import { ALL_RULES } from '../../../src/rules/delivery-index.ts'

type Fits = (data: unknown) => boolean
const packed: Record<string, Fits> = {}
beforeAll(async () => {
  for (const code of compiledSchemas().values()) {
    const { outputFiles } = await build({
      stdin: { contents: code, resolveDir: '.' },
      bundle: true,
      write: false,
      format: 'cjs',
    })
    const module: { exports: Record<string, Fits> } = { exports: {} }
    new Function('module', outputFiles[0]?.text ?? '')(module)
    Object.assign(packed, module.exports)
  }
})

const schema = specSchema(ALL_RULES)
const isSpec = new Ajv({ allowUnionTypes: true }).compile(schema)
const HEAD = { brand: 'Osprey Lane', version: 1 }

test.each([
  ['the starter', parse(STARTER_SPEC)],
  ['a spec of two keys', HEAD],
  ['a deliverable left out', { ...HEAD, deliverables: { web: false } }],
  [
    'a setting of each rule: switched off',
    { ...HEAD, ...Object.fromEntries(ALL_RULES.map(({ id }) => [id, false])) },
  ],
  ['a stranger among the keys', { ...HEAD, headrom: { min: 5 } }],
  ['a text for a number', { ...HEAD, headroom: { min: '5' } }],
  ['a deliverable named like a rule', { ...HEAD, deliverables: { headroom: null } }],
  ['no brand', { version: 1 }],
  ['a list', []],
  ['nothing', null],
])('a spec fits the packed form as it fits the source: %s', (_, data) => {
  expect(packed.fitsSpec?.(data)).toBe(fitsSpec(data, schema))
})

// Whole settings and wrong ones of every rule: what is refused within alternatives, references and names of keys, too.
test.each(ALL_RULES.map((rule): [string, unknown] => [rule.id, parse(rule.text.example)[rule.id]]))(
  'the packed form judges settings of %s as the source does',
  (id, setting) => {
    const entries = typeof setting === 'object' && setting !== null ? Object.entries(setting) : []
    const settings = [
      ...[setting, false, true, null, 0, -1, 'left', '', [], [setting], {}],
      { ...Object.fromEntries(entries), stranger: 1 },
      ...entries.flatMap(([key, value]) =>
        [null, -1, 'x', [value], { value }].map((wrong) => ({
          ...Object.fromEntries(entries),
          [key]: wrong,
        })),
      ),
      ...entries.map(([key]) => Object.fromEntries(entries.filter(([other]) => other !== key))),
    ]
    const specs = settings.flatMap((one) => [
      { ...HEAD, [id]: one },
      { ...HEAD, deliverables: { web: { [id]: one } } },
    ])
    expect(specs.map((spec) => packed.fitsSpec?.(spec))).toEqual(specs.map((spec) => isSpec(spec)))
    expect(specs.some((spec) => packed.fitsSpec?.(spec))).toBe(true)
  },
)

test('the spec of the example fits', async () => {
  expect(packed.fitsSpec?.(parse(await readFile('examples/osprey-lane/brand.yaml', 'utf8')))).toBe(true)
})

test.each([
  [{ pattern: '{family}.jpg' }],
  [{ pattern: '' }],
  [{ pattern: 'a', fields: { 'X y': {} } }],
  [null],
])('so does a naming, %j', (data) => {
  expect(packed.fitsNaming?.(data)).toBe(fitsNaming(data))
})

test.each([[{ kind: 'portrait gallery', measurer: 1, portraits: [] }], [{ kind: 'other' }], [1]])(
  'so does a gallery, %j',
  (data) => {
    expect(packed.fitsGallery?.(data)).toBe(fitsGallery(data))
  },
)
