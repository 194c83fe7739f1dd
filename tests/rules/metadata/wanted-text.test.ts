import { describe, expect, test } from 'vitest'
import { meets, templateProblem, wantedTexts } from '../../../src/rules/metadata/wanted-text.ts'
import { GOOD_NAME } from '../judging/cases.ts'

const literal = (text: string) => ({ text, fromName: false })
const named = (text: string) => ({ text, fromName: true })

describe('templates', () => {
  test('without fields', () => {
    expect(wantedTexts('Osprey Lane', GOOD_NAME)).toEqual([literal('Osprey Lane')])
  })
  test('with fields of the name', () => {
    expect(wantedTexts('{given} {family} ({staff-id})', GOOD_NAME)).toEqual([named('Nkem Abara (00123)')])
  })
  test('with every reading of a name that splits in two ways', () => {
    const name = {
      ...GOOD_NAME,
      fields: { family: 'Smith-Jones', given: 'Anna' },
      otherReadings: [{ family: 'Smith', given: 'Jones-Anna' }],
    }
    expect(wantedTexts('{given} {family}', name)).toEqual([
      named('Anna Smith-Jones'),
      named('Jones-Anna Smith'),
    ])
  })
  test('with a field that the name does not tell', () => {
    expect(wantedTexts('{department}: {given}', GOOD_NAME)).toEqual({
      missing: 'department',
      template: '{department}: {given}',
    })
  })
  test('a value that looks like a field stays as it is', () => {
    const name = { ...GOOD_NAME, fields: { family: '{given}', given: '$&' } }
    expect(wantedTexts('{given} {family}', name)).toEqual([named('$& {given}')])
  })
  test.each([
    ['{family', 'has no partner'],
    ['family}', 'has no partner'],
    ['{{family}}', 'has no partner'],
    ['{}', 'are empty'],
    ['{ }', 'are empty'],
  ])('%s is refused', (template, words) => expect(templateProblem(template)).toContain(words))
  test.each(['{family}', 'no braces', '{a} {b}'])('%s is fine', (template) => {
    expect(templateProblem(template)).toBeNull()
  })
})

describe('a text of the spec, letter for letter', () => {
  test.each([
    ['© 2026 Osprey Lane Veterinary Group', 'Osprey Lane Veterinary Group', true],
    ['osprey lane veterinary group', 'Osprey Lane Veterinary Group', false],
    ['Osprey  Lane\nVeterinary Group', 'Osprey Lane Veterinary Group', true],
    // Unicode UAX #15: composed and decomposed forms are one text.
    ['Zoe\u0308 Lund', 'Zo\u00eb Lund', true],
    ['Zoe Lund', 'Zo\u00eb Lund', false],
    ['Osprey', 'Osprey Lane', false],
  ])('%j holds %j: %s', (value, text, holds) => expect(meets(value, literal(text), false)).toBe(holds))

  test.each([
    ['Osprey Lane', 'Osprey Lane', true],
    [' Osprey  Lane ', 'Osprey Lane', true],
    ['© Osprey Lane', 'Osprey Lane', false],
  ])('%j is %j: %s', (value, text, is) => expect(meets(value, literal(text), true)).toBe(is))
})

// Letters are compared at the primary level of the Unicode Collation Algorithm (UTS #10), by way of ECMA-402.
describe('a text with fields of the file name', () => {
  test.each([
    ['Nkem Abara', 'Nkem Abara', true],
    ['Portrait of Nkem Abara, veterinarian', 'Nkem Abara', true],
    ['Nkem Abara', 'nkem abara', true],
    ['Søren Bergström', 'Soren Bergstrom', true],
    ['Anna van der Berg', 'anna van-der-berg', true],
    ['Anna Smith-Jones', 'Anna Smith Jones', true],
    ['Abara Nkem', 'Nkem Abara', false],
    ['Nkem Abarana', 'Nkem Abara', false],
    ['Nkem', 'Nkem Abara', false],
    ['', 'Nkem Abara', false],
    ['Łukasz Żak', 'Lukasz Zak', true],
    ['山田 太郎', '山田 太郎', true],
    ['山田 次郎', '山田 太郎', false],
  ])('%j holds %j: %s', (value, text, holds) => expect(meets(value, named(text), false)).toBe(holds))

  test('whole', () => {
    expect(meets('Nkem Abara', named('nkem abara'), true)).toBe(true)
    expect(meets('Dr Nkem Abara', named('nkem abara'), true)).toBe(false)
  })
})
