import { describe, expect, test } from 'vitest'
import { loadSpec } from '../../../src/brand-spec/load.ts'
import { STARTER_SPEC } from '../../../src/brand-spec/starter.ts'
import { readGallery } from '../../../src/gallery/gallery-file.ts'
import { MEASURER_VERSION } from '../../../src/measure/schema/measurements.ts'
import type { NamingPattern } from '../../../src/naming/naming.ts'
import { readRoster } from '../../../src/people/roster.ts'
import { ALL_RULES } from '../../../src/rules/delivery-index.ts'
import { readWaivers } from '../../../src/waivers/read-waivers.ts'
import { seeded } from '../../random.ts'
import { pick } from './chance.ts'
import { MUTATORS } from './mutators/index.ts'

const NAMING: NamingPattern = {
  text: '{family}-{given}.jpg',
  segments: [[{ field: 'family' }, { text: '-' }, { field: 'given' }, { text: '.jpg' }]],
  fields: {},
}
const SOURCE = { file: 'x', text: '' }
/** Anything a person reads: words, in one line, and not too many. */
const SENTENCE = /^\S+ [^\n]{10,1200}$/
const IDS = ALL_RULES.map(({ id }) => id)

/** The readers of what strangers write, each giving its complaints. */
const READERS: Readonly<Record<string, (text: string) => readonly { message: string }[]>> = {
  spec: (text) => {
    const loaded = loadSpec(text, 'brand.yaml', ALL_RULES)
    return 'problems' in loaded ? loaded.problems : []
  },
  waivers: (text) => {
    const read = readWaivers({ ...SOURCE, text }, IDS)
    return 'problems' in read ? read.problems : []
  },
  roster: (text) => {
    const read = readRoster({ ...SOURCE, text }, NAMING)
    return 'problems' in read ? read.problems : []
  },
  gallery: (text) => {
    const read = readGallery(text)
    return 'problem' in read ? [{ message: read.problem }] : []
  },
}

/** What a reader has to complain about in a text, in sentences. */
function complaints(reader: string, text: string): readonly string[] {
  const messages = READERS[reader]?.(text).map(({ message }) => message) ?? []
  for (const message of messages) expect(message).toMatch(SENTENCE)
  return messages
}

const nested = (open: string, close = '') =>
  `a: ${open.repeat(60_000 / open.length)}${close.repeat(60_000 / open.length)}`
const aliases = `a: &a [x]\n${Array.from({ length: 60 }, (_, n) => `b${n}: &b${n} [*${n === 0 ? 'a' : `b${n - 1}`}, *${n === 0 ? 'a' : `b${n - 1}`}]`).join('\n')}`

const lines = (line: (n: number) => string) => Array.from({ length: 6000 }, (_, n) => line(n)).join('\n')

describe.each(['spec', 'waivers'])('YAML that means harm, as %s', (reader) => {
  test.each([
    ['aliases that double sixty times', aliases],
    ['an alias of itself', 'a: &a [*a]'],
    ['30,000 aliases', `a: &a x\nb: [${'*a, '.repeat(30_000)}]`],
    ['brackets as deep as it is long', nested('[')],
    ['and closed', nested('[', ']')],
    ['dashes', '- '.repeat(60_000)],
    ['question marks', '? '.repeat(60_000)],
    ['mappings', nested('{a: ', '}')],
    ['indents', Array.from({ length: 480 }, (_, n) => `${' '.repeat(n)}a:`).join('\n')],
    ['ten megabytes', `brand: ${'x'.repeat(10_000_000)}`],
    ['binary', Buffer.from(Array.from({ length: 50_000 }, (_, n) => (n * 7919) % 256)).toString('latin1')],
    ['NULs', '\0'.repeat(1000)],
    ['a tag that would build an object', 'a: !!js/function "process.exit()"'],
    ['a key that is part of every object', '__proto__: { brand: x }\nconstructor: { prototype: x }'],
    ['20,000 keys', Array.from({ length: 20_000 }, (_, n) => `k${n}:`).join('\n')],
    ['20,000 documents', '---\n'.repeat(20_000)],
    ['20,000 quotes', '"'.repeat(20_000)],
    ['a line of spaces with a fault at its end', `a: @${' '.repeat(120_000)}x`],
    ['a line of spaces in brackets', `a: [b${' '.repeat(120_000)}c`],
    ['a line of colons', ': '.repeat(60_000)],
    ['a number of 100,000 digits', `version: ${'9'.repeat(100_000)}`],
    ['a merge key', 'a: &a { brand: x }\n<<: *a'],
    ['anchors without end', '&a '.repeat(40_000)],
    ['carriage returns', 'a:\r'.repeat(30_000)],
    ['commas', `[${','.repeat(100_000)}]`],
    ['tabs', lines(() => 'a:\n\tb: 1')],
    ['open quotes', lines(() => 'a: "b')],
    ['colors in braces', lines(() => 'a: { b: #fff }')],
    ['one key again and again', lines(() => 'brand: X')],
    ['6000 words that are no rules', `advisory: [${lines((n) => `w${n},`)}]`],
  ])('%s: told in sentences', (_, yaml) => {
    expect(complaints(reader, yaml).length).toBeGreaterThan(0)
  })
})

describe('lists of people that mean harm', () => {
  test.each([
    ['a million columns', `${'a,'.repeat(1_000_000)}b\n`],
    [
      'a million columns that are all different',
      `${Array.from({ length: 600_000 }, (_, n) => n.toString(36)).join()}\n`,
    ],
    ['a million empty columns with a name at the end', `family${','.repeat(1_000_000)}given\n`],
    ['a million lines with nothing on them', `family,given\n${','.concat('\n').repeat(1_000_000)}`],
    ['a quote that is never closed', `family,given\n"${'x'.repeat(3_000_000)}`],
    ['quotes alone', '"'.repeat(1_000_000)],
    ['a value of three megabytes twice', `family\n${'x'.repeat(1_500_000)}\n${'x'.repeat(1_500_000)}\n`],
    ['semicolons and commas in turn', ',;'.repeat(500_000)],
    ['200,000 rows of one value each', `family,given\n${'x\n'.repeat(200_000)}`],
    ['carriage returns', '\r'.repeat(1_000_000)],
  ])('%s: told in sentences', (_, csv) => {
    expect(complaints('roster', csv).length).toBeGreaterThan(0)
  })
})

test.each([
  ['deep JSON', '['.repeat(1_000_000)],
  [
    'a million portraits',
    `{"kind": "portrait gallery", "measurer": ${MEASURER_VERSION}, "portraits": [${'{},'.repeat(500_000)}{}]}`,
  ],
  ['a number beyond number', '{"kind": "portrait gallery", "measurer": 1e999, "portraits": []}'],
  ['another prototype', '{"__proto__": {"kind": "portrait gallery"}}'],
])('a gallery file that means harm: %s', (_, json) => {
  expect(complaints('gallery', json)).toHaveLength(1)
})

describe('texts spoiled at random: read or told, never thrown', () => {
  const waivers =
    '- rule: headroom\n  file: web/a.jpg\n  reason: hat\n  approved-by: Pat\n  until: 2027-03-31\n'
  const roster = 'family,given,absent\nLund,Ada,\n"Pham","Linh ""L""",on leave\n'
  const gallery = '{"kind": "portrait gallery", "measurer": 1, "portraits": []}'
  const bytewise = ['truncate', 'flipBits', 'overwrite', 'removeSlice', 'repeatSlice', 'swapSlices']

  test.each([
    ['spec', STARTER_SPEC, 400],
    ['waivers', waivers, 1000],
    ['roster', roster, 1000],
    ['gallery', gallery, 1000],
  ] as const)('%s', (reader, text, times) => {
    const random = seeded(text.length)
    let told = 0
    for (let n = 0; n < times; n++) {
      const spoiled = MUTATORS[pick(random, bytewise)]?.(Buffer.from(text), random) ?? Buffer.alloc(0)
      if (complaints(reader, spoiled.toString('utf8')).length > 0) told++
    }
    expect(told).toBeGreaterThan(times / 10)
  })
})
