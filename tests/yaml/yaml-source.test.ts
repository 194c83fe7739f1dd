import { describe, expect, test } from 'vitest'
import { readYaml, type YamlSource } from '../../src/yaml/yaml-source.ts'

function problems(yaml: string): string[] {
  return readYaml(yaml).problems.map(({ line, column, message }) => `${line}:${column} ${message}`)
}

function source(yaml: string): YamlSource {
  const read = readYaml(yaml)
  if (!read.source) throw new Error(JSON.stringify(read.problems))
  return read.source
}

describe('a syntax error is told by its likely cause', () => {
  const TAB =
    'This line is indented with a tab; YAML takes spaces only. Replace each tab with two spaces, here and wherever else there are tabs.'
  const INDENT =
    'The indentation of this line matches no line above it; settings that belong together begin in the same column, two spaces to the right of their key.'
  const DEEPER =
    'This line is indented as if it belonged to the line above, which already has its value; begin it in the same column as that line.'
  const SPACE =
    'This is no usual space, though it looks like one (pasted from a web page or a letter?); type it anew with the space bar.'
  test.each([
    // YAML 1.2.2, section 6.1: tabs must not be used in indentation.
    ['tabs, told once', 'a:\n\tmin: 6\n\tmax: 12\n', [`2:1 ${TAB}`]],
    ['tab in the middle', 'a:\n  min: 6\n\tmax: 12\n', [`3:1 ${TAB}`]],
    ['too little indentation', 'a:\n  min: 6\n max: 12\n', [`3:2 ${INDENT}`]],
    ['less indentation than the neighbor', 'a:\n    b: {}\n  c: {}\n', [`3:3 ${INDENT}`]],
    ['too much indentation', 'a: X\n  version: 1\n', [`2:3 ${DEEPER}`]],
    [
      'no colon',
      'a: X\nversion 1\nb: 2\n',
      ['2:1 "version 1" has no colon; a setting is a key, a colon, a space and a value.'],
    ],
    [
      'a colon within a text',
      'a: Osprey: Lane\n',
      ['1:4 A text with a colon in it must be in quotes: "Osprey: Lane".'],
    ],
    [
      'an open brace',
      'a: { min: 6\nb: 1\n',
      ['1:4 The { here is not closed; put } where it ends, and indent the lines inside it.'],
    ],
    [
      'an open bracket',
      'a: [x, y\nb: 1\n',
      ['1:4 The [ here is not closed; put ] where it ends, and indent the lines inside it.'],
    ],
    ['an open quote', 'a: "x\nb: 1\n', ['1:4 The text that begins here is never closed; put " at its end.']],
    [
      'an open single quote',
      "a: 'x\nb: 1\n",
      ["1:4 The text that begins here is never closed; put ' at its end."],
    ],
    [
      'no comma',
      'a: { min: 6 max: 12 }\n',
      ['1:4 Two settings within { have no comma between them; write, for example, { min: 6, max: 12 }.'],
    ],
    [
      'curly quotes around braces',
      'a: { b: “{c}.jpg” }\nd: 1\n',
      ['1:9 Curly quotes are letters like any other in YAML; write straight ones: "{c}.jpg".'],
    ],
    ['a pasted space after the colon', 'a:\u00A0{ min: 6 }\n', [`1:3 ${SPACE}`]],
    ['a brace too many', 'a: { min: 6 }}\n', ['1:14 This } closes nothing; remove it.']],
    [
      'a closing brace at the margin',
      'a:\n  b: {\n    c: 1\n}\n',
      ['4:1 This } is too far left; put at least two spaces before it.'],
    ],
    [
      'text after a quote',
      'a: "X" Y\n',
      ['1:8 "Y" comes after the closing quote; put the whole text in quotes.'],
    ],
    [
      'a reserved sign',
      'a: @X\n',
      ['1:4 A text can\'t begin with "@" without quotes; put it in quotes: "@X".'],
    ],
    [
      'a percent sign',
      'a: %X\n',
      ['1:4 A text can\'t begin with "%" without quotes; put it in quotes: "%X".'],
    ],
    ['a tag', 'a: !x y\n', ['1:4 A text can\'t begin with "!" without quotes; put it in quotes: "!x y".']],
    [
      'an asterisk',
      'a: *X\n',
      ['1:4 "*X" refers to nothing (&X is not set before it); a text that begins with * must be in quotes.'],
    ],
    [
      'an unknown escape',
      'a: "b\\q"\n',
      [
        '1:6 "\\q" has no meaning within double quotes; write \\\\ for a backslash, or put the text in single quotes.',
      ],
    ],
    [
      'a list among keys',
      'a: X\n- b\n',
      [
        '2:1 A list item appears where a key is expected; put it below the key of its list, indented by two spaces.',
      ],
    ],
    [
      'a second document',
      'a: X\n---\nb: Y\n',
      [
        '2:1 A second document begins here; this file must be one document. Remove the line "---", or move what follows to another file.',
      ],
    ],
    [
      'a key that is a list',
      '? [a]\n: b\n',
      [
        '1:3 A key must be a plain word here, not a list, a mapping or a number; put the word before the colon.',
      ],
    ],
    [
      'forty levels',
      'a: '.concat('['.repeat(40), ']'.repeat(40), '\n'),
      [
        '1:34 This is more than 30 levels deep; the settings of a spec are at most six deep. Is it the right file?',
      ],
    ],
    ['no key', ': b\n', ['1:1 A key is missing before the colon; write one, or remove the line.']],
  ])('%s', (_, yaml, wanted) => {
    expect(problems(yaml)).toEqual(wanted)
  })

  test('several errors, each on its line', () => {
    expect(problems('a: @x\nb: 1\nc: %y\n').map((problem) => problem.slice(0, 3))).toEqual(['1:4', '3:4'])
  })
})

describe('what was pasted or typed in another way than YAML has it', () => {
  const CURLY = 'Curly quotes are letters like any other in YAML; write straight ones:'
  const SPACE = /^2:\d+ This is no usual space/
  test.each([
    ['a text in curly quotes', 'a: “Osprey Lane”\n', `1:4 ${CURLY} "Osprey Lane".`],
    ['in German ones', 'a: [„x“, y]\n', `1:5 ${CURLY} "x".`],
    ['in single ones', 'a: ‘x’\n', `1:4 ${CURLY} "x".`],
    ['a key', '“a”: x\n', `1:1 ${CURLY} "a".`],
    [
      'a decimal comma within braces',
      'a: { min: 6,5, max: 12,5 }\n',
      '1:11 A decimal has a point, since a comma ends the number here: write 6.5.',
    ],
  ])('%s', (_, yaml, problem) => {
    expect(problems(yaml)).toContain(problem)
  })

  test.each([
    ['no-break', '\u00A0'],
    ['narrow', '\u202F'],
    ['wide', '\u3000'],
  ])('a %s space where a key or a value begins or ends', (_, space) => {
    for (const line of [`${space}min: 6`, `  min: ${space}6`, `  min: 6${space}`, `  x: {${space}y: 1 }`])
      expect(problems(`a:\n${line}\n`), line).toEqual([expect.stringMatching(SPACE)])
  })

  test.each([
    ['an apostrophe', 'a: The sitter’s name\n'],
    ['a quotation within a text', 'a: Our “house style” of 2026\n'],
    ['two quotations', 'a: “House” and “style”\n'],
    ['curly quotes within straight ones', 'a: "“Osprey Lane”"\n'],
    ['a space within a text', 'a: 20\u00A0years\n'],
    ['a space within straight quotes', 'a: "\u00A0x"\n'],
    ['words in lines of their own', 'a: |\n  “Osprey Lane”\n'],
    ['numbers in a list', 'a: [6, 5]\n'],
    ['a key without a value', 'a: { b: 6, c }\n'],
  ])('%s is fine', (_, yaml) => {
    expect(problems(yaml)).toEqual([])
  })
})

describe('places', () => {
  const yaml = 'a: 1\nlist:\n  - x\n  - { y: "two words" }\nnull: \nshared: &s { z: 1 }\nuse: *s\n'
  test.each([
    [['a'], 'value', '1:4'],
    [['a'], 'key', '1:1'],
    [['list', '1', 'y'], 'value', '4:10'],
    [['list', '1', 'y'], 'key', '4:7'],
    [['list', '0'], 'value', '3:5'],
    [['null'], 'value', '5:1'],
    [['use', 'z'], 'key', '6:14'],
    [['gone'], 'value', '1:1'],
    [[], 'value', '1:1'],
  ] as const)('%j, %s: %s', (path, at, place) => {
    const { line, column } = source(yaml).problem(path, at, '')
    expect(`${line}:${column}`).toBe(place)
  })

  test('within a text, as long as it stands as it is', () => {
    const texts = source('a: plain\nb: "double"\nc: \'single\'\nd: "esc\\u0041ped"\n')
    const columns = ['a', 'b', 'c', 'd'].map((key) => texts.problemWithin([key], 4, '').column)
    expect(columns).toEqual([8, 9, 9, 4])
  })

  test('hold with a byte order mark and CRLF', () => {
    expect(source('\uFEFFa: 1\r\nb: 2\r\n').problem(['b'], 'value', '')).toMatchObject({ line: 2, column: 4 })
  })
})

test('numbers and words are kept as they are written', () => {
  const read = source('a: 00123\nb: "00123"\nc: 0x1F\n')
  expect(['a', 'b', 'c', 'd'].map((key) => read.written([key]))).toEqual(['00123', null, '0x1F', null])
})

test('the data is that of YAML 1.2 whatever version the file claims: yes is a text', () => {
  expect(source('%YAML 1.1\n---\na: yes\nb: 012\n').data).toEqual({ a: 'yes', b: 12 })
})
