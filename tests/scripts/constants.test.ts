import { describe, expect, test } from 'vitest'
import { constantsPage } from '../../scripts/constants/page.ts'
import { readConstants } from '../../scripts/constants/read.ts'

const problemsIn = (source: string) => readConstants('src/a.ts', source).problems.map(({ text }) => text)

describe('a constant', () => {
  test('passes with a tag, and is told with its value and where it comes from', () => {
    const source =
      '/**\n * Least distance between the eyes, px.\n *\n * @tuned on 24 drawn sitters: smaller ones read up to 2 % off.\n */\nexport const LEAST_PX: number = 24 /* px */ as const'
    expect(readConstants('src/measure/face/a.ts', source)).toEqual({
      constants: [
        {
          path: 'src/measure/face/a.ts',
          name: 'LEAST_PX',
          value: '24',
          meaning: 'Least distance between the eyes, px.',
          tag: 'tuned',
          origin: 'on 24 drawn sitters: smaller ones read up to 2 % off.',
        },
      ],
      problems: [],
    })
  })

  test.each([
    ['no comment', 'const A = 3'],
    ['a comment that is no doc comment', '// Three. @choice for no reason at all.\nconst A = 3'],
    ['a doc comment without a tag', '/** Three. */\nconst A = 3'],
    ['two tags', '/** Three. @choice for no reason at all. @source nowhere */\nconst A = 3'],
    ['nothing said before the tag', '/** @choice for no reason at all. */\nconst A = 3'],
    ['nothing said after the tag', '/** Three. @choice */\nconst A = 3'],
    [
      'the comment of the one before',
      '/** Three. @choice for no reason at all. */\nconst B = 3\nconst A = 3',
    ],
    ['a declaration shared with another', '/** Three. @choice for no reason at all. */\nconst B = x, A = 3'],
    ['numbers in an object', 'const A = { share: 0.3 } as const'],
    ['numbers in an array', 'const A: readonly number[] = [0, 1]'],
    ['arithmetic', 'const A = 3 * SIGMA'],
    ['a number that something is called with', 'const A = Math.sin(20)'],
  ])('fails with %s', (_, source) => {
    expect(problemsIn(source)).toEqual([expect.stringMatching(/^A needs /)])
  })

  test.each([
    ['a text', "const A = 'three'"],
    ['an empty value', 'const NONE = { count: 0, box: null }'],
    ['something made from others', 'const A = relative(ROW, D50[1])'],
    ['a plain multiple', 'const A = Math.PI / 180'],
    ['a schema', 'const A = Type.Number({ minimum: 0, maximum: 20 })'],
    ['an object of schemas', 'const A = { share: Type.Number({ minimum: 0, maximum: 20 }) }'],
    ['a type', 'type A = 3 | 4'],
  ])('is not %s', (_, source) => {
    expect(readConstants('src/a.ts', source)).toEqual({ constants: [], problems: [] })
  })
})

describe('a number in a function', () => {
  test.each([
    ['a threshold', 'function f(x) { return x > 3 }', '3'],
    ['a decimal', 'const f = (x) => x * 0.4', '0.4'],
    ['a negative one', 'function f(x) { return x - -16 }', '16'],
    ['a default', 'function f(x = 12) { return x }', '12'],
    ['a rounded multiple in an index', 'function f(x) { return data[Math.ceil(3 * x)] }', '3'],
    ['a broken exponent', 'function f(x) { return x ** 2.4 }', '2.4'],
    ['a method of an object', 'const READERS = { jpeg(x) { return x > 3 } }', '3'],
    ['a multiple of a constant', 'function f(x) { return x < 10 * TERMS ? rows[TERMS] : 0 }', '10'],
    ['a length', 'function f(all) { return all.length > 20 }', '20'],
    [
      'a tag that is no source',
      '/** Is large. @choice for no reason. */\nfunction f(x) { return x > 3 }',
      '3',
    ],
  ])('fails: %s', (_, source, number) => {
    expect(problemsIn(source)).toEqual([
      `${number} has no name: make it a constant and say where it comes from.`,
    ])
  })

  test.each([
    ['plain ones', 'function f(x) { return (100 * x + 0.5) / 255 - 1 + 2 * 180 - 360 }'],
    ['a place', 'function f(i) { const at = 3 * i; return data[at + 4] }'],
    [
      'a stride',
      'function f() { for (let at = 8; at + 12 <= n; at += 12) read(bytes.readUInt32BE(at + 8)) }',
    ],
    ['a size', 'function f(w, h) { return new Uint8Array(3 * w * h) }'],
    ['bits and whole powers', 'function f(x) { return (x >> 4) & 15 | x ** 3 }'],
    ['digits and a radix', 'function f(x) { return Number.parseInt(x, 16).toFixed(3) }'],
    [
      'channels of a raw picture',
      'function f() { return sharp(data, { raw: { width, height, channels: 3 } }) }',
    ],
  ])('passes: %s', (_, source) => {
    expect(problemsIn(source)).toEqual([])
  })

  test('passes in a published formula, which is listed', () => {
    const source =
      '/** Decodes ROMM RGB. @param x encoded @source ISO 22028-2:2013, 4.2. @returns linear light */\nexport const decode = (x) => (x < 16 / 512 ? x / 16 : x ** 1.8)'
    const { constants, problems } = readConstants('src/a.ts', source)
    expect(problems).toEqual([])
    expect(constants).toEqual([
      expect.objectContaining({
        name: 'decode()',
        value: '',
        tag: 'source',
        origin: 'ISO 22028-2:2013, 4.2.',
      }),
    ])
  })
})

test('the page lists constants by folder with units, and escapes what would end a cell', () => {
  const page = constantsPage([
    {
      path: 'src/color/a.ts',
      name: 'A',
      value: '3',
      meaning: 'Least width, px.',
      tag: 'choice',
      origin: 'a | b',
    },
    {
      path: 'src/color/a.ts',
      name: 'f()',
      value: '',
      meaning: 'A formula.',
      tag: 'source',
      origin: 'CIE 15.',
    },
    {
      path: 'src/rules/b.ts',
      name: 'B',
      value: '0.1',
      meaning: 'Room, share of a head.',
      tag: 'tuned',
      origin: 'x',
    },
  ])
  expect(page.slice(page.indexOf('- source'))).toBe(
    [
      '- source (1): from the publication or standard named',
      '- tuned (1): fitted to the data named',
      '- choice (1): decided, for the reason given',
      '',
      '## color',
      '',
      '| constant | value | what it is | | where it comes from |',
      '|---|---|---|---|---|',
      '| [`A`](../src/color/a.ts) | `3` px | Least width, px. | choice | a \\| b |',
      '| [`f()`](../src/color/a.ts) | formula | A formula. | source | CIE 15. |',
      '',
      '## rules',
      '',
      '| constant | value | what it is | | where it comes from |',
      '|---|---|---|---|---|',
      '| [`B`](../src/rules/b.ts) | `0.1` share of a head | Room, share of a head. | tuned | x |',
      '',
    ].join('\n'),
  )
})
