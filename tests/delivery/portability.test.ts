import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { collisions, mergedName, portabilityProblems } from '../../src/delivery/portability.ts'
import { debianFile } from '../outside/debian.ts'

const text = (codes: string) =>
  String.fromCodePoint(
    ...codes
      .trim()
      .split(' ')
      .map((code) => Number.parseInt(code, 16)),
  )

// UAX #44, Default_Ignorable_Code_Point, by number; U+200C and U+200D stand in Persian and Hindi names, U+E0100 in Japanese ones.
test.each([
  ['a zero-width space', '200B', ['U+200B']],
  ['a byte order mark', 'FEFF', ['U+FEFF']],
  ['a soft hyphen', 'AD', ['U+00AD']],
  ['a reading direction', '202E', ['U+202E']],
  ['a letter that shows nothing', '3164', ['U+3164']],
  ['a line separator', '2028', ['U+2028']],
  ['a tag', 'E0041', ['U+E0041']],
  ['a zero-width non-joiner', '200C', []],
  ['a zero-width joiner', '200D', []],
  ['a variation selector', 'E0100', []],
])('%s in a name', (_, code, told) => {
  const found = portabilityProblems(`print/Adeyemi${text(code)}.jpg`)
  expect(found).toEqual(told.map((character) => ({ kind: 'unseen', character })))
})

describe('NFC', () => {
  // Unicode Standard Annex #15, figures of composed and decomposed letters; "Zoë" as code points.
  test.each([
    ['Zoë', '5A 6F 65 308', '5A 6F EB'],
    ['Ångström sign', '212B', 'C5'],
    ['ü', '75 308', 'FC'],
  ])('%s is told to be composed', (_, found, composed) => {
    expect(portabilityProblems(`print/${text(found)}.jpg`)).toEqual([
      { kind: 'not-nfc', composed: `print/${text(composed)}.jpg` },
    ])
  })

  const unicodeTest = debianFile('unicode-data', '/usr/share/unicode/NormalizationTest.txt.bz2')
  test.runIf(unicodeTest)('agrees with every line of Unicode NormalizationTest.txt', () => {
    const lines = execFileSync('bzcat', [unicodeTest ?? ''], { encoding: 'utf8', maxBuffer: 2 ** 26 })
      .split('\n')
      .filter((line) => /^[0-9A-F]/.test(line))
    expect(lines.length).toBeGreaterThan(18_000)
    for (const line of lines) {
      // Columns of the file: source; NFC; NFD; NFKC; NFKD. Invariant: c2 == toNFC(c1) == toNFC(c2) == toNFC(c3).
      const [source, nfc, nfd] = line.split(';').slice(0, 3).map(text) as [string, string, string]
      const wanted = [source, nfc, nfd].map((name) =>
        name === nfc ? [] : [{ kind: 'not-nfc', composed: nfc }],
      )
      const found = [source, nfc, nfd].map((name) =>
        portabilityProblems(name).filter(({ kind }) => kind === 'not-nfc'),
      )
      expect(found, line).toEqual(wanted)
      expect(mergedName(nfd), line).toBe(mergedName(nfc))
    }
  })
})

describe('names that differ in case only', () => {
  const folding = debianFile('unicode-data', '/usr/share/unicode/CaseFolding.txt')
  const entries = folding
    ? [...readFileSync(folding, 'utf8').matchAll(/^([0-9A-F]+); ([CF]); ([0-9A-F ]+);/gm)].map(
        ([, code = '', , to = '']) => ({ from: text(code), to: text(to) }),
      )
    : []

  test.runIf(folding)('merge whatever Unicode CaseFolding.txt folds together (status C and F)', () => {
    expect(entries.length).toBe(1530)
    const apart = entries.filter(({ from, to }) => mergedName(from) !== mergedName(to))
    expect(apart).toEqual([])
  })

  test.runIf(folding)('merge nothing else among letters of the Latin, Greek and Cyrillic blocks', () => {
    const folded = new Map(entries.map(({ from, to }) => [from, to]))
    const merged = new Map<string, Set<string>>()
    for (let code = 0x20; code < 0x530; code++) {
      const letter = String.fromCodePoint(code)
      const fold = (folded.get(letter) ?? letter).normalize('NFC')
      const key = mergedName(letter)
      merged.set(key, (merged.get(key) ?? new Set()).add(fold))
    }
    expect([...merged.values()].filter((folds) => folds.size > 1)).toEqual([])
  })

  test('the dotless i is a letter of its own', () => {
    expect(mergedName('Işık')).not.toBe(mergedName('Işik'))
    expect(mergedName('STRASSE')).toBe(mergedName('straße'))
  })
})

describe('collisions', () => {
  test('name the other file and what sets the two apart', () => {
    const composed = 'print/Zoë.jpg'
    const decomposed = composed.normalize('NFD')
    expect(collisions(['print/a.jpg', 'Print/A.jpg', composed, decomposed, 'print/b.jpg'])).toEqual([
      { kind: 'collision', with: 'Print/A.jpg', by: 'case' },
      { kind: 'collision', with: 'print/a.jpg', by: 'case' },
      { kind: 'collision', with: decomposed, by: 'normalization' },
      { kind: 'collision', with: composed, by: 'normalization' },
      null,
    ])
  })
})

describe('Windows', () => {
  // Microsoft, "Naming Files, Paths, and Namespaces": characters, device names, trailing space and period.
  test.each([
    ['a:b.jpg', 'contains the character :'],
    ['a?.jpg', 'contains the character ?'],
    ['a*.jpg', 'contains the character *'],
    ['a<b.jpg', 'contains the character <'],
    ['a>b.jpg', 'contains the character >'],
    ['a"b.jpg', 'contains the character "'],
    ['a|b.jpg', 'contains the character |'],
    ['a\\b.jpg', 'contains the character \\'],
    ['a\u0000b.jpg', 'contains a control character'],
    ['a\u001fb.jpg', 'contains a control character'],
    ['CON', 'is reserved for a device'],
    ['con.jpg', 'is reserved for a device'],
    ['Aux.tar.gz', 'is reserved for a device'],
    ['NUL', 'is reserved for a device'],
    ['prn.jpg', 'is reserved for a device'],
    ['COM1.jpg', 'is reserved for a device'],
    ['lpt9', 'is reserved for a device'],
    ['COM¹.jpg', 'is reserved for a device'],
    ['CONIN$', 'is reserved for a device'],
    ['name.', 'ends with a period'],
    ['name ', 'ends with a space'],
    [`${'n'.repeat(252)}.jpg`, 'is longer than 255 characters'],
  ])('refuses %j: %s', (part, why) => {
    const problems = portabilityProblems(`print/${part}/x.jpg`)
    expect(problems).toEqual([{ kind: 'windows', part, why, folder: `print/${part}` }])
    expect(portabilityProblems(`print/${part}`)).toEqual([{ kind: 'windows', part, why }])
  })

  test.each([
    'Conrad.jpg',
    'COM10.jpg',
    'com.jpg',
    'LPT0.jpg',
    'a.b.jpg',
    ' a.jpg',
    `${'n'.repeat(251)}.jpg`,
    'Nuláž.jpg',
  ])('takes %j', (name) => {
    expect(portabilityProblems(name)).toEqual([])
  })

  test('each fault of a name is told', () => {
    expect(portabilityProblems('aux.jpg?.')).toEqual([
      { kind: 'windows', part: 'aux.jpg?.', why: 'contains the character ?' },
      { kind: 'windows', part: 'aux.jpg?.', why: 'is reserved for a device' },
      { kind: 'windows', part: 'aux.jpg?.', why: 'ends with a period' },
    ])
  })
})

test('a name whose bytes were no UTF-8 is told', () => {
  expect(portabilityProblems('Zo\ufffd.jpg')).toEqual([{ kind: 'not-utf8' }])
})
