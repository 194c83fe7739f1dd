import { describe, expect, test } from 'vitest'
import { loadSpec } from '../../src/brand-spec/load.ts'
import type { Spec } from '../../src/brand-spec/spec.ts'
import { roster } from '../../src/rules/delivery/roster.ts'
import { INVENTED } from './rules.ts'

const head = (version = 1) => `brand: Osprey Lane Veterinary Group\nversion: ${version}\n`
const UP = 'extends: ../group.yaml\n'

function loaded(own: string, ...others: readonly string[]) {
  const rules = [...INVENTED, roster]
  const [text = '', ...extended] = [own, ...others].map((yaml, index) => head(index + 1) + yaml)
  const texts = extended.map((one, index) => ({ file: `group${index === 0 ? '' : index}.yaml`, text: one }))
  return loadSpec(text, 'harbor/brand.yaml', rules, texts)
}

function load(...yaml: readonly [string, ...string[]]): Spec {
  const result = loaded(...yaml)
  if ('problems' in result) throw new Error(JSON.stringify(result.problems))
  return result.spec
}

function problems(...yaml: readonly [string, ...string[]]): string[] {
  const result = loaded(...yaml)
  return 'spec' in result
    ? []
    : result.problems.map(({ file = 'own', line, message }) => `${file}:${line} ${message}`)
}

describe('what a spec has from the one that it extends', () => {
  test('is all that it does not set anew', () => {
    const spec = load(
      `${UP}lean: false\n`,
      'margin: { min: 6, max: 12 }\nlean: { max: 3 }\nadvisory: [margin]\n',
    )
    expect(spec).toMatchObject({
      ...{ file: 'harbor/brand.yaml', version: 1, extended: [{ file: 'group.yaml', version: 2 }] },
      settings: { margin: { min: 6, max: 12 }, lean: false },
      advisory: ['margin'],
    })
  })

  test('a rule set anew counts whole: options are not mixed', () => {
    const spec = load(`${UP}margin: { max: 9 }\n`, 'margin: { min: 6, max: 12 }\n')
    expect(spec.settings.margin).toEqual({ max: 9 })
  })

  test('so do the naming pattern and the list of advisory rules', () => {
    const base =
      'naming: { pattern: "{family}_{staff-id}.jpg", fields: { staff-id: { digits: 5 } } }\nadvisory: [margin]\n'
    const spec = load(`${UP}naming: { pattern: "{family}.jpg" }\nadvisory: [lean]\n`, base)
    expect(spec.naming).toMatchObject({ text: '{family}.jpg', fields: {} })
    expect(spec.advisory).toEqual(['lean'])
  })

  test('deliverables are merged by name, and within each by rule; false leaves one out', () => {
    const base =
      'deliverables:\n  print: { margin: { min: 6 }, lean: { max: 3 } }\n  web:\n  badge: { margin: { min: 1 } }\n'
    const own = `${UP}deliverables:\n  print: { margin: { max: 9 } }\n  web:\n  badge: false\n  wall: { lean: { max: 1 } }\n`
    expect(load(own, base).deliverables).toEqual({
      print: { margin: { max: 9 }, lean: { max: 3 } },
      web: {},
      wall: { lean: { max: 1 } },
    })
  })

  test('what it names lies beside it, and beside the spec what that names', () => {
    const base = 'roster: staff.csv\nwaivers: waivers.yaml\n'
    expect(load(UP, base).namedIn).toEqual({ roster: 'group.yaml', waivers: 'group.yaml' })
    expect(load(`${UP}waivers: own.yaml\n`, base)).toMatchObject({
      waivers: 'own.yaml',
      namedIn: { roster: 'group.yaml', waivers: 'harbor/brand.yaml' },
    })
  })

  test('goes on through a chain; what nobody extends is left alone', () => {
    const chain = [UP, 'extends: firm.yaml\nlean: { max: 2 }\n', 'lean: { max: 9 }\nsealed: true\n'] as const
    expect(load(...chain).settings).toEqual({ lean: { max: 2 }, sealed: true })
    expect(load('lean: { max: 1 }\n', 'sealed: true\n').settings).toEqual({ lean: { max: 1 } })
  })
})

describe('problems are told in the file in which they are', () => {
  test('of the extended spec, with its name', () => {
    const [one, ...more] = problems(`${UP}lean: { max: 1 }\n`, 'margins: { min: 6 }\nlean: { max: 3 }\n')
    expect(one).toMatch(/^group\.yaml:3 "margins" is neither a rule nor a setting; did you mean margin\?/)
    expect(more).toEqual([])
  })

  test('of both at once, the own first', () => {
    expect(problems(`${UP}leen: {}\n`, 'leen: {}\n').map((one) => one.slice(0, 12))).toEqual([
      'own:4 "leen"',
      'group.yaml:3',
    ])
  })

  test('YAML that can not be read', () => {
    expect(problems(UP, 'margin: {\n')[0]).toMatch(/^group\.yaml:3 /)
  })

  test('a naming pattern of the one that does not fit the deliverables of the other', () => {
    const base = 'naming: { pattern: "{deliverable}/{family}.jpg" }\n'
    expect(problems(UP, base)[0]).toMatch(/^group\.yaml:3 .*deliverable/)
    expect(problems(`${UP}deliverables: { web: {} }\n`, base)).toEqual([])
  })

  test('deliverables of two specs that differ in capital letters only', () => {
    const own = `${UP}deliverables: { Web: {} }\n`
    expect(problems(own, 'deliverables: { web: {} }\n')[0]).toMatch(
      /^own:4 The deliverables web and Web differ only/,
    )
  })

  test('a deliverable left out that nobody orders', () => {
    expect(problems(`${UP}deliverables: { wall: false }\n`, 'deliverables: { web: {} }\n')).toEqual([
      'own:4 deliverables.wall is false, which leaves out a deliverable of the spec that this one extends; that orders web. Remove the line.',
    ])
    expect(problems('deliverables: { wall: false }\n')[0]).toContain('it orders none')
    expect(problems('deliverables: { wall: true }\n')[0]).toContain('write its settings below it')
  })

  test('a spec whose extended one is not at hand', () => {
    expect(problems(UP)).toEqual(['own:3 The spec that is named here was not read.'])
  })

  test.each([
    ['a number', 'extends: 3\n', 'extends is the number 3'],
    [
      'nothing',
      'extends:\n',
      'extends is empty; it takes the path of another spec, as in: extends: ../group.yaml',
    ],
  ])('%s in place of a path', (_, own, words) => {
    expect(problems(own)[0]).toContain(words)
  })
})
