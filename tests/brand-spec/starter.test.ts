import { expect, test } from 'vitest'
import { loadSpec } from '../../src/brand-spec/load.ts'
import { SCHEMA_FILE, STARTER_SPEC } from '../../src/brand-spec/starter.ts'
import { ALL_RULES } from '../../src/rules/delivery-index.ts'

const load = (yaml: string) => loadSpec(yaml, 'brand.yaml', ALL_RULES)

test('loads without a problem', () => {
  expect(load(STARTER_SPEC)).toMatchObject({ spec: { brand: 'Osprey Lane Veterinary Group', version: 1 } })
})

test('names the schema beside it on its first line, as editors look for it', () => {
  expect(STARTER_SPEC.split('\n')[0]).toBe(`# yaml-language-server: $schema=./${SCHEMA_FILE}`)
})

test('every setting that is switched off loads too once its # is taken away', () => {
  const off = STARTER_SPEC.split('\n').filter(
    (line) => /^# [a-z-]+: /.test(line) && !line.includes('$schema'),
  )
  expect(off.length).toBeGreaterThan(1)
  for (const line of off) {
    const key = line.slice(2).split(':', 1)[0]
    const rest = STARTER_SPEC.split('\n').filter((other) => other !== line && !other.startsWith(`${key}:`))
    expect(load(`${rest.join('\n')}\n${line.slice(2)}\n`), line).toHaveProperty('spec')
  }
})

test('reads well on a page and in a terminal', () => {
  for (const line of STARTER_SPEC.split('\n')) expect(line.length, line).toBeLessThanOrEqual(110)
})
