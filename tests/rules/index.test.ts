import { Ajv } from 'ajv'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { GROUPS, type Measurements } from '../../src/measure/schema/measurements.ts'
import type { Rule } from '../../src/rules/contract/rule.ts'
import { RULES } from '../../src/rules/index.ts'
import { background, face, finish, GOOD, GOOD_NAME, head, UNREAD } from './judging/cases.ts'

const ajv = new Ajv({ strict: true, allowUnionTypes: true })

/** The options of the rule's own example, as YAML 1.2 reads them. */
function exampleOf(rule: Rule): unknown {
  const spec: Record<string, unknown> = parse(rule.text.example)
  return spec[rule.id]
}
const judge = (rule: Rule, changes: Partial<Measurements>) =>
  rule.judge({ measured: { ...GOOD, ...changes }, name: GOOD_NAME }, exampleOf(rule))

test('ids are in kebab case and stand once', () => {
  const ids = RULES.map(({ id }) => id)
  expect(new Set(ids).size).toBe(ids.length)
  for (const id of ids) expect(id).toMatch(/^[a-z]+(-[a-z]+)*$/)
})

describe.each(RULES.map((rule) => [rule.id, rule] as const))('%s', (_, rule) => {
  test('its example is valid, and the good portrait passes it', () => {
    const fits = ajv.compile(rule.options)
    expect(fits(exampleOf(rule)), JSON.stringify(fits.errors)).toBe(true)
    expect(rule.problem(exampleOf(rule))).toBeNull()
    expect(judge(rule, {}).verdict).toBe('pass')
  })

  test('its schema is draft-07 and speaks', () => {
    expect(ajv.validateSchema(rule.options)).toBe(true)
    expect(rule.options.description).toMatch(/^\p{Lu}.*\.$/u)
  })

  test('its texts are whole', () => {
    const { title, measures, why, fix } = rule.text
    expect(title).toMatch(/^\p{Lu}.*[^.]$/u)
    for (const text of [measures, why, fix]) expect(text).toMatch(/^\p{Lu}.*\.$/u)
    for (const group of rule.needs) expect(GROUPS).toContain(group)
  })
})

test.each(RULES.filter(({ always }) => always !== undefined).map((rule) => [rule.id, rule] as const))(
  'the options that %s always runs with are valid',
  (_, rule) => expect(ajv.compile(rule.options)(rule.always)).toBe(true),
)

// What is not measured is never a pass. The size in bytes and the name are always known.
const NOTHING: Partial<Measurements> = { ...UNREAD, fault: null, format: null, intact: null }
const measuring = RULES.filter(({ id }) => id !== 'file-name' && id !== 'file-size')

test.each(measuring.map((rule) => [rule.id, rule] as const))(
  '%s is unsure when nothing was measured',
  (_, rule) => {
    const finding = judge(rule, NOTHING)
    expect(finding.verdict).toBe('unsure')
    expect(finding.reason).toContain('check by eye')
  },
)

test.each(measuring.map((rule) => [rule.id, rule] as const))(
  '%s does not pass a file that can not be read',
  (_, rule) => {
    const finding = judge(rule, { ...UNREAD, format: null, fault: { kind: 'not-a-picture', detail: '' } })
    expect(finding.verdict).toBe(rule.id === 'file-format' ? 'fail' : 'skip')
  },
)

test.each(
  RULES.filter(({ needs }) => needs.includes('face') || needs.includes('background')).map(
    (rule) => [rule.id, rule] as const,
  ),
)('%s is unsure when the backdrop and the face are doubtful', (_, rule) => {
  const doubtful = {
    ...face({ confidence: 0.4 }),
    ...head({ confidence: 0.4 }),
    ...background({ confidence: 0.4 }),
    ...doubtfulFinish(),
  }
  expect(judge(rule, doubtful).verdict).toBe('unsure')
})

function doubtfulFinish(): Partial<Measurements> {
  if (!GOOD.finish) return {}
  const { focus, enlargement, lensGlare, clipping, key, skinTint, eyePair, texture } = GOOD.finish
  const confidence = 0.4
  return finish({
    focus: focus && { ...focus, confidence },
    lensGlare: { ...lensGlare, confidence },
    clipping: { ...clipping, confidence },
    key: { ...key, confidence },
    skinTint: { ...skinTint, confidence },
    eyePair: eyePair && { ...eyePair, confidence },
    enlargement: enlargement && { ...enlargement, confidence },
    texture: { ...texture, confidence },
  })
}
