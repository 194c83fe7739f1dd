import { describe, expect, test } from 'vitest'
import { loadSpec } from '../../src/brand-spec/load.ts'
import type { Spec } from '../../src/brand-spec/spec.ts'
import { ALL_RULES } from '../../src/rules/delivery-index.ts'
import { INVENTED } from './rules.ts'

const HEAD = 'brand: Osprey Lane Veterinary Group\nversion: 1\n'

function load(yaml: string): Spec {
  const loaded = loadSpec(yaml, 'brand.yaml', INVENTED)
  if ('problems' in loaded) throw new Error(JSON.stringify(loaded.problems))
  return loaded.spec
}

/** Problems as they are printed. With `head` the two lines that each spec needs stand before the YAML. */
function problems(yaml: string, head = HEAD): string[] {
  const loaded = loadSpec(head + yaml, 'brand.yaml', INVENTED)
  if ('spec' in loaded) return []
  return loaded.problems.map(({ line, column, message }) => `${line}:${column} ${message}`)
}

describe('a spec without problems', () => {
  test('is read whole', () => {
    const spec = load(`${HEAD}
naming:
  pattern: "{deliverable}/{family}_{staff-id}.jpg"
  fields: { staff-id: { digits: 5 } }
deliverables:
  print: { margin: { target: 9, tolerance: 1 }, lean: false }
  web:
margin: { min: 6, max: 12 }
sealed: true
paper: [matt, silk]
advisory: [lean]
`)
    expect(spec).toEqual({
      file: 'brand.yaml',
      brand: 'Osprey Lane Veterinary Group',
      version: 1,
      extended: [],
      consent: null,
      masters: null,
      prepare: {},
      namedIn: { roster: 'brand.yaml', waivers: 'brand.yaml' },
      naming: {
        text: '{deliverable}/{family}_{staff-id}.jpg',
        segments: [
          [{ field: 'deliverable' }],
          [{ field: 'family' }, { text: '_' }, { field: 'staff-id' }, { text: '.jpg' }],
        ],
        fields: { 'staff-id': { digits: 5 } },
      },
      settings: { margin: { min: 6, max: 12 }, sealed: true, paper: ['matt', 'silk'] },
      deliverables: { print: { margin: { target: 9, tolerance: 1 }, lean: false }, web: {} },
      waivers: null,
      advisory: ['lean'],
    })
  })

  test('needs a brand and a version only', () => {
    expect(load(HEAD)).toMatchObject({ naming: null, settings: {}, deliverables: {}, advisory: [] })
  })

  test('is frozen through and through', () => {
    const spec = load(`${HEAD}margin: { min: 6 }\ndeliverables: { web: { margin: { max: 3 } } }\n`)
    expect(Object.isFrozen(spec)).toBe(true)
    expect(() => Object.assign(spec.settings.margin as object, { min: 0 })).toThrow(TypeError)
    expect(() => Object.assign(spec.deliverables.web as object, { margin: 0 })).toThrow(TypeError)
  })

  test('knows no settings but its own, whatever they are called', () => {
    const { settings, deliverables } = load(`${HEAD}deliverables: { constructor: {}, valueOf: {} }\n`)
    expect(Object.keys(deliverables)).toEqual(['constructor', 'valueOf'])
    expect(deliverables.toString).toBeUndefined()
    expect(settings.constructor).toBeUndefined()
  })

  test('may use the other forms of YAML: byte order mark, CRLF, old line ends, aliases', () => {
    expect(load(`\uFEFF${HEAD}`).version).toBe(1)
    expect(load(HEAD.replaceAll('\n', '\r\n')).version).toBe(1)
    expect(load(HEAD.replaceAll('\n', '\r')).version).toBe(1)
    expect(load(`${HEAD}margin: &band { min: 6 }\nlean: *band\n`).settings.lean).toEqual({ min: 6 })
  })
})

describe('every problem is a sentence with its place', () => {
  const BAND = '{ min, max }, { min }, { max } or { target, tolerance }'
  const cases: [string, string, string[]][] = [
    // Keys
    [
      'unknown rule',
      'margn: { min: 6 }',
      ['3:1 "margn" is neither a rule nor a setting; did you mean margin?'],
    ],
    [
      'unknown word',
      'zebra: 1',
      ['3:1 "zebra" is neither a rule nor a setting; see the list with: portrait-gate explain'],
    ],
    [
      'other spelling',
      'Margin: { min: 6 }',
      ['3:1 "Margin" is neither a rule nor a setting; did you mean margin?'],
    ],
    [
      'unknown option',
      'margin: { mim: 6, max: 12 }',
      ['3:11 margin has no setting "mim"; did you mean min?'],
    ],
    [
      'options of two forms',
      'margin: { min: 6, tolerance: 2 }',
      [`3:19 margin has "tolerance" together with min, which can't be combined; it takes ${BAND}.`],
    ],
    [
      'unknown option, far from any',
      'tint: { color: "#f4f4f2", zebra: 1 }',
      ['3:27 tint has no setting "zebra"; it takes { color, shift }.'],
    ],
    [
      'option missing',
      'margin: { target: 9 }',
      ['3:1 margin has no tolerance; it takes { target, tolerance }.'],
    ],
    [
      'misspelled option is not told as missing too',
      'tint: { colr: "#f4f4f2" }',
      ['3:9 tint has no setting "colr"; did you mean color?'],
    ],
    ['key twice', 'code: a\ncode: b', ['4:1 "code" appears twice; keep one of the two.']],
    [
      'no space after the colon',
      'margin:{ min: 6 }',
      ['3:1 A colon needs a space after it, as in "margin: ...".'],
    ],
    // Values
    [
      'text for a mapping',
      'margin: 6 to 12',
      [`3:9 margin is the text "6 to 12"; it takes ${BAND}, as in: margin: { min: 6, max: 12 }`],
    ],
    [
      'list for a mapping',
      'margin: [6, 12]',
      [`3:9 margin is a list; it takes ${BAND}, as in: margin: { min: 6, max: 12 }`],
    ],
    [
      'true for a mapping',
      'margin: true',
      [`3:9 margin is true; it takes ${BAND}, as in: margin: { min: 6, max: 12 }`],
    ],
    ['nothing', 'margin:', [`3:1 margin is empty; it takes ${BAND}, as in: margin: { min: 6, max: 12 }`]],
    [
      'no options',
      'margin: {}',
      [`3:9 margin has no settings; it takes ${BAND}, as in: margin: { min: 6, max: 12 }`],
    ],
    [
      'number in quotes, number with a unit',
      'margin: { min: "6", max: 12 % }',
      [
        '3:16 margin.min is the text "6"; it takes a number: write the number alone, without quotes or unit: 6.',
        '3:26 margin.max is the text "12 %"; it takes a number: write the number alone, without quotes or unit: 12.',
      ],
    ],
    [
      'decimal comma',
      'margin: { min: "6,5" }',
      [
        '3:16 margin.min is the text "6,5"; it takes a number: write the number alone, without quotes or unit: 6.5.',
      ],
    ],
    [
      'number out of range',
      'margin: { target: 9, tolerance: -1 }',
      ['3:33 margin.tolerance is the number -1; it takes a number of 0 or more.'],
    ],
    [
      'whole number out of range',
      'tint: { color: "#f4f4f2", shift: 6 }',
      ['3:34 tint.shift is the number 6; it takes a whole number from -5 to 5.'],
    ],
    [
      'fraction for a whole number',
      'tint: { color: "#f4f4f2", shift: 0.5 }',
      ['3:34 tint.shift is the number 0.5; it takes a whole number from -5 to 5.'],
    ],
    [
      'endless number',
      'margin: { min: .inf }',
      ['3:16 margin.min is not a finite number; it takes a number.'],
    ],
    [
      'text of another form',
      'tint: { color: white }',
      [
        '3:16 tint.color is the text "white", which does not have the required form. A color such as "#f4f4f2".',
      ],
    ],
    ['empty text', 'code: ""', ['3:7 code is an empty text; write a text.']],
    [
      'misspelled word',
      'paper: mat',
      [
        '3:8 paper is the text "mat"; did you mean matt? It takes one of matt, gloss, silk or a list, each item one of matt, gloss, silk.',
      ],
    ],
    [
      'misspelled word in a list',
      'paper: [mat]',
      ['3:9 paper (item 1) is the text "mat"; did you mean matt? It takes one of matt, gloss, silk.'],
    ],
    [
      'double in a list',
      'paper: [matt, silk, matt]',
      ['3:8 paper has the same value twice, as items 1 and 3; keep one.'],
    ],
    ['empty list', 'paper: []', ['3:8 paper is an empty list; fill it, or remove the line.']],
    ['word for true', 'sealed: yes', ['3:9 sealed is the text "yes"; it takes true, as in: sealed: true']],
    // What YAML makes of texts
    [
      'number with leading zeros',
      'code: 00123',
      [
        '3:7 code is 00123, which without quotes is the number 123 in YAML; it should be a text: put it in quotes: "00123".',
      ],
    ],
    [
      'number for a text',
      'code: 123',
      ['3:7 code is the number 123 in YAML; it should be a text: put it in quotes: "123".'],
    ],
    [
      'true for a text',
      'code: true',
      ['3:7 code is true in YAML; it should be a text: put it in quotes: "true".'],
    ],
    [
      'color without quotes (YAML 1.2.2, section 6.6: a # after a space begins a comment)',
      'tint:\n  color: #f4f4f2\n',
      [
        '4:3 tint.color is empty, because #f4f4f2 without quotes is a comment in YAML; put it in quotes: "#f4f4f2".',
      ],
    ],
    [
      'color without quotes within braces',
      'tint: { color: #fff }\nmargin: { min: 6 }\n',
      [
        '3:16 #fff without quotes is a comment in YAML, and so is the rest of its line; put it in quotes: "#fff".',
      ],
    ],
    // Bands
    ['band that nothing can meet', 'margin: { min: 12, max: 6 }', ['3:9 margin: min 12 is over max 6.']],
    [
      'the same in a deliverable',
      'deliverables: { web: { margin: { min: 12, max: 6 } } }',
      ['3:32 deliverables.web.margin: min 12 is over max 6.'],
    ],
    // Indentation
    [
      'options at the margin',
      'margin:\nmin: 6\nmax: 12\n',
      [
        '4:1 "min" belongs to margin but is not indented under it; put two more spaces before it and before the other settings of margin.',
      ],
    ],
    [
      'deliverable at the margin',
      'deliverables:\nweb: { margin: { min: 6 } }\n',
      [
        '4:1 "web" belongs to deliverables but is not indented under it; put two more spaces before it and before the other settings of deliverables.',
      ],
    ],
    [
      'rule beside its deliverable',
      'deliverables:\n  web:\n  margin: { min: 6 }\n',
      [
        "5:3 margin is a rule in the place of a deliverable's name; indent it by two spaces under a deliverable, or move it to the left margin to apply it to all.",
      ],
    ],
    // Deliverables and advisory
    [
      'list of deliverables',
      'deliverables: [print, web]',
      [
        '3:15 deliverables is a list; it takes a mapping, as in: deliverables: { web: { aspect-ratio: "1:1" } }',
      ],
    ],
    [
      'setting of the whole spec in a deliverable',
      'deliverables: { web: { brand: X } }',
      ['3:24 "brand" applies to the whole spec, not to one deliverable; move it to the left margin.'],
    ],
    [
      'name of a deliverable that can be no folder',
      'deliverables: { "a/b": {} }',
      [
        '3:17 "a/b" can\'t be a name here; use letters and digits, with single spaces, dots, hyphens or underscores between them (at most 64 characters).',
      ],
    ],
    [
      'deliverables that share a folder on some systems',
      'deliverables: { web: {}, Web: {} }',
      [
        '3:26 The deliverables web and Web differ only in upper and lower case; give them names that differ in letters.',
      ],
    ],
    [
      'misspelled rule under advisory',
      'advisory: [margin, leen]',
      ['3:20 advisory (item 2) is the text "leen"; did you mean lean? It takes the name of a rule.'],
    ],
    [
      'one advisory rule without brackets',
      'advisory: lean',
      [
        '3:11 advisory is the text "lean"; it takes a list, each item the name of a rule: put it in brackets: [lean].',
      ],
    ],
    // Naming
    [
      'pattern with faults, each at its character',
      'naming:\n  pattern: "{famly}-{given}{staff-id}_{given}.jpg"\n  fields:\n    staffid: { digits: 5 }\n',
      [
        '4:13 "famly" is not a field; did you mean {family}?',
        "4:28 There is nothing between {staff-id} and the field before it, so names can't be split there; put a separator such as _ between them.",
        '4:39 {given} appears twice in the pattern; use it once, so that its value is clear.',
        '6:5 The pattern has no field {staffid}; did you mean staff-id?',
      ],
    ],
    [
      'pattern without quotes',
      'naming:\n  pattern: {family}-{given}.jpg\n',
      ['4:20 A text that begins with { must be in quotes: "{family}-{given}.jpg".'],
    ],
    [
      'constraint of no kind',
      'naming: { pattern: "{family}.jpg", fields: { family: 5 } }',
      ['3:54 naming.fields.family is the number 5; it takes { digits }, { one-of } or { case, max-length }.'],
    ],
    [
      'constraints of two kinds',
      'naming: { pattern: "{family}.jpg", fields: { family: { digits: 5, one-of: [a] } } }',
      [
        '3:67 naming.fields.family has "one-of" together with digits, which can\'t be combined; it takes { digits }, { one-of } or { case, max-length }.',
      ],
    ],
    [
      'values with leading zeros',
      'naming: { pattern: "{team}.jpg", fields: { team: { one-of: [007] } } }',
      [
        '3:61 naming.fields.team.one-of (item 1) is 007, which without quotes is the number 7 in YAML; it should be a text: put it in quotes: "007".',
      ],
    ],
  ]
  test.each(cases)('%s', (_, yaml, wanted) => {
    expect(problems(yaml)).toEqual(wanted)
  })

  test.each([
    [
      'empty',
      '',
      '1:1 The spec is empty; begin with two lines such as "brand: Osprey Lane Veterinary Group" and "version: 1".',
    ],
    [
      'only notes',
      '# later\n',
      '1:1 The spec is empty; begin with two lines such as "brand: Osprey Lane Veterinary Group" and "version: 1".',
    ],
    [
      'a list',
      '- brand: X\n',
      '1:1 The spec is a list; it should be lines of a key, a colon, a space and a value, such as "brand: Osprey Lane Veterinary Group".',
    ],
    [
      'prose',
      'hello\n',
      '1:1 The spec is the text "hello"; it should be lines of a key, a colon, a space and a value, such as "brand: Osprey Lane Veterinary Group".',
    ],
    ['no spaces after colons', 'brand:X\nversion:1\n', '1:1 A colon needs a space after it: brand: "X".'],
    ['no version', 'brand: X\n', '1:1 The spec has no version; add it as in: version: 1'],
    [
      'a misspelled brand',
      'brnad: X\nversion: 1\n',
      '1:1 "brnad" is neither a rule nor a setting; did you mean brand?',
    ],
    [
      'version 0',
      'brand: X\nversion: 0\n',
      '2:10 version is the number 0; it takes a whole number of 1 or more, as in: version: 1',
    ],
    [
      'version in quotes',
      'brand: X\nversion: "1"\n',
      '2:10 version is the text "1"; it takes a whole number of 1 or more: write the number alone, without quotes or unit: 1.',
    ],
    [
      'version with a point',
      'brand: X\nversion: "1.2"\n',
      '2:10 version is the text "1.2"; it takes a whole number of 1 or more, as in: version: 1',
    ],
    [
      'rich text',
      '{\\rtf1\\ansi brand: X}',
      '1:1 This file is rich text, with fonts and colors (RTF); save it as plain text in UTF-8.',
    ],
    [
      'bytes that are no text',
      'brand: X\u0000\n',
      '1:1 This file is not UTF-8 text; save it as plain text in UTF-8. Is it the right file?',
    ],
    [
      'too large',
      `${'#'.repeat(200_000)}\n`,
      '1:1 This file is 196 KiB; the limit is 128 KiB. Is it the right file?',
    ],
  ])('%s', (_, yaml, wanted) => {
    expect(problems(yaml, '')).toEqual([wanted])
  })
})

describe('several problems', () => {
  test('are told in one go, by line', () => {
    expect(
      problems('zebra: 1\nmargin: { min: 12, max: 6 }\nlean: { max: "4" }\npaper: mat\n').map((p) =>
        p.slice(0, 4),
      ),
    ).toEqual(['3:1 ', '4:9 ', '5:14', '6:8 '])
  })

  test('end after fifty, with a sentence', () => {
    const many = Array.from({ length: 80 }, (_, n) => `k${n}: 1\n`).join('')
    const told = problems(many)
    expect(told).toHaveLength(51)
    expect(told.at(-1)).toBe('53:1 There are more problems from here on; fix those above first.')
  })

  test('of a part do not hide that another part asks for what nothing can meet', () => {
    expect(problems('deliverables:\n  web: { margin: { min: 12, max: 6 }, zebra: 1 }\n')).toEqual([
      '4:18 deliverables.web.margin: min 12 is over max 6.',
      '4:39 "zebra" is neither a rule nor a setting; see the list with: portrait-gate explain',
    ])
  })
})

test.each([
  ['color-space: AdobeRGB', 'did you mean Adobe RGB (1998)?'],
  ['file-format: { allow: jpg }', 'did you mean [jpeg]?'],
  ['file-format: jpg', 'did you mean { allow: [jpeg] }?'],
  ['metadata-forbidden: [gps]', 'did you mean coordinates or location?'],
  ['metadata-forbidden: gps', 'did you mean [coordinates] or [location]?'],
  ['compression: { subsampling: 420 }', 'did you mean 4:2:0?'],
  ['key-side: left', 'did you mean { side: left }?'],
  ['same-frame: [all]', 'did you mean all?'],
  ['roster: { file: staff.csv, hand-over: no names }', 'did you mean names?'],
])('%s: the value that was meant', (line, hint) => {
  const loaded = loadSpec(`${HEAD}${line}\n`, 'brand.yaml', ALL_RULES)
  const [problem, ...others] = 'problems' in loaded ? loaded.problems : []
  expect(others).toEqual([])
  expect(problem?.message).toContain(`; ${hint}`)
})

test.each([
  ['dpi: 300', '"dpi" is neither a rule nor a setting; did you mean resolution or pixel-size?'],
  [
    'rules: { headroom: { min: 6 } }',
    '"rules" is neither a rule nor a setting; write headroom in its place, not under it.',
  ],
  [
    'deliverables: { web: { framing: { headroom: { min: 6 }, tilt: { max: 2 } } } }',
    '"framing" is neither a rule nor a setting; write headroom and tilt in its place, not under it.',
  ],
])('%s: a word or a heading for rules', (line, message) => {
  const loaded = loadSpec(`${HEAD}${line}\n`, 'brand.yaml', ALL_RULES)
  expect('problems' in loaded && loaded.problems.map((problem) => problem.message)).toEqual([message])
})

test('text of strangers comes out visible', () => {
  expect(problems('"\\e[31mred\\u202E": 1\n')).toEqual([
    '3:1 "\\u{1B}[31mred\\u{202E}" is neither a rule nor a setting; see the list with: portrait-gate explain',
  ])
})

test('keys that JavaScript objects have of themselves are unknown like others', () => {
  expect(problems('__proto__: { x: 1 }\nconstructor: 1\n')).toHaveLength(2)
})

describe('specs that multiply', () => {
  test.each([
    [
      'copies of copies',
      `a: &a [x,x,x,x,x,x,x,x,x]\n${Array.from({ length: 9 }, (_, n) => `a${n}: &a${n} [${Array(9).fill(n ? `*a${n - 1}` : '*a')}]`).join('\n')}`,
    ],
    ['an alias of itself', 'brand: X\nversion: 1\nadvisory: &a [*a]\n'],
    ['deep options', `${HEAD}margin: ${'{min: '.repeat(300)}${'}'.repeat(300)}`],
  ])('%s', (_, yaml) => {
    expect(problems(yaml, '').length).toBeGreaterThan(0)
  })
})

test('every example of every real rule is a good setting', () => {
  for (const { id, text } of ALL_RULES) {
    const loaded = loadSpec(`${HEAD}deliverables: { print: {} }\n${text.example}\n`, 'brand.yaml', ALL_RULES)
    expect('problems' in loaded ? loaded.problems : [], id).toEqual([])
  }
})
