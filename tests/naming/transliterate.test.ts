import { describe, expect, test } from 'vitest'
import { isPlain, spelledIn, TRANSLITERATIONS, transliterated } from '../../src/naming/transliterate.ts'

const NAMES = [
  ['Bjørn', 'Bjorn', 'Bjoern'],
  ['ÅSA BERGSTRÖM', 'ASA BERGSTROM', 'AASA BERGSTROEM'],
  ['Åsa Bergström', 'Asa Bergstrom', 'Aasa Bergstroem'],
  ['Øyvind', 'Oyvind', 'Oeyvind'],
  ['Groß', 'Gross', 'Gross'],
  ['GROẞ', 'GROSS', 'GROSS'],
  ['Þórður', 'Thordur', 'Thordur'],
  ['Łukasz Żółć', 'Lukasz Zolc', 'Lukasz Zolc'],
  ['İbrahim Çelik', 'Ibrahim Celik', 'Ibrahim Celik'],
  ['Ngọc Đỗ', 'Ngoc Do', 'Ngoc Do'],
  ['D’Arcy', "D'Arcy", "D'Arcy"],
  ['Bergstro\u0308m', 'Bergstrom', 'Bergstroem'],
] as const

test.each(NAMES)('%s is %s, and in passports %s', (name, base, passport) => {
  expect(transliterated(name, 'base')).toBe(base)
  expect(transliterated(name, 'passport')).toBe(passport)
})

test('what is plain already stays, and so does what is of another script', () => {
  for (const how of TRANSLITERATIONS)
    for (const text of ["O'Neil-Smith_00418", 'Иванова', '李']) expect(transliterated(text, how)).toBe(text)
  expect(spelledIn({}, 'Bjo\u0308rn')).toBe('Björn')
})

describe('by the collations of CLDR, which Node.js has from ICU', () => {
  // Latin-1, Latin Extended-A, B and Additional.
  const letters = [...Array(0x250).keys(), ...Array.from({ length: 0x100 }, (_, i) => 0x1e00 + i)]
    .map((code) => String.fromCodePoint(code))
    .filter((letter) => /\p{L}/u.test(letter) && !isPlain(letter))
  const root = new Intl.Collator('und', { sensitivity: 'base' })

  test('a letter and its base are one letter, but for those that have no base there', () => {
    const spelled = letters.filter((letter) => isPlain(transliterated(letter, 'base')))
    expect(spelled.length).toBeGreaterThan(500)
    const others = spelled.filter((letter) => root.compare(letter, transliterated(letter, 'base')) !== 0)
    expect(others.join('')).toBe('ÞþıŉŊŋŦŧƏ')
  })

  test('German phone books and Danish write the pairs of passports', () => {
    const german = new Intl.Collator('de-u-co-phonebk', { sensitivity: 'base' })
    const danish = new Intl.Collator('da', { sensitivity: 'base' })
    for (const letter of 'äöüÄÖÜ') expect(german.compare(letter, transliterated(letter, 'passport'))).toBe(0)
    for (const letter of 'åÅ') expect(danish.compare(letter, transliterated(letter, 'passport'))).toBe(0)
  })
})
