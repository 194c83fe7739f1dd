import { describe, expect, test } from 'vitest'
import { parsePattern } from '../../src/naming/naming.ts'
import type { FieldConstraint } from '../../src/naming/naming-field.ts'

function problems(
  text: string,
  fields: Record<string, FieldConstraint> = {},
  deliverables = ['web'],
): string[] {
  const parsed = parsePattern(text, fields, deliverables)
  if ('pattern' in parsed) return []
  return parsed.problems.map((one) => `${'at' in one ? one.at : one.field}: ${one.message}`)
}

test('a pattern becomes folders and a file name of texts and fields', () => {
  expect(parsePattern('final/{deliverable}/{family}-{given}.jpg', {}, ['web'])).toEqual({
    pattern: {
      text: 'final/{deliverable}/{family}-{given}.jpg',
      segments: [
        [{ text: 'final' }],
        [{ field: 'deliverable' }],
        [{ field: 'family' }, { text: '-' }, { field: 'given' }, { text: '.jpg' }],
      ],
      fields: {},
    },
  })
})

test('texts are kept in NFC, as names are read', () => {
  expect(parsePattern('Porträt_{family}'.normalize('NFD'), {}, [])).toMatchObject({
    pattern: { segments: [[{ text: 'Porträt_'.normalize('NFC') }, { field: 'family' }]] },
  })
})

describe('problems stand at their character', () => {
  test.each([
    ['{family', '0: This { is never closed; write a field such as {family}.'],
    ['family}', '6: This } closes nothing; write a field such as {family}.'],
    ['{family-{given}', '0: This { is never closed; write a field such as {family}.'],
    ['{}', '0: These braces are empty; put the name of a field in them, such as {family}.'],
    ['{famly}', '0: "famly" is not a field; did you mean {family}?'],
    [
      '{team}.jpg',
      '0: "team" is not a field. Use one of {deliverable}, {family}, {given}, {staff-id}, {ext}, or declare your own under naming.fields, such as department: {}.',
    ],
    [
      '{family}_{family}',
      '9: {family} appears twice in the pattern; use it once, so that its value is clear.',
    ],
    [
      'a_{family}{given}',
      "10: There is nothing between {given} and the field before it, so names can't be split there; put a separator such as _ between them.",
    ],
    [
      '/{family}',
      '0: A folder or file name is missing here; write names between single slashes, with none at the ends.',
    ],
    [
      '{family}/',
      '9: A folder or file name is missing here; write names between single slashes, with none at the ends.',
    ],
    ['../{family}', '0: ".." is not a name; start the pattern at the folder that matters.'],
    ['a\\{family}', '1: This is a backslash; write / between folders on every system.'],
  ])('%s', (pattern, problem) => {
    expect(problems(pattern)).toEqual([problem])
  })

  test('{deliverable} without deliverables', () => {
    expect(problems('{deliverable}/{family}', {}, [])).toEqual([
      '0: The pattern has {deliverable}, but the spec names no deliverables; name them under "deliverables", or remove the field.',
    ])
  })

  test('more fields than a name can be split by in reasonable time', () => {
    const fields = Object.fromEntries(Array.from({ length: 13 }, (_, n) => [`f${n}`, {}]))
    expect(
      problems(
        Object.keys(fields)
          .map((field) => `{${field}}`)
          .join('_'),
        fields,
      ),
    ).toEqual(['0: This name has more than 12 fields; join some of them.'])
  })
})

describe('problems of declared fields', () => {
  test.each([
    [{ team: {} }, 'team: The pattern has no field {team}; add it to the pattern, or remove it here.'],
    [{ famly: {} }, 'famly: The pattern has no field {famly}; did you mean family?'],
    [
      { deliverable: { case: 'lower' as const } },
      'deliverable: The values of {deliverable} are the names under "deliverables"; remove it here.',
    ],
    [
      { family: { digits: { min: 6, max: 4 } } },
      'family: family: min is 6 and max is 4, so no number of digits fits; swap them.',
    ],
  ])('%j', (fields, problem) => {
    expect(problems('{deliverable}/{family}.jpg', fields)).toEqual([problem])
  })

  test('a field of the client is known once it is declared', () => {
    expect(problems('{team}_{family}.jpg', { team: {} })).toEqual([])
  })
})
