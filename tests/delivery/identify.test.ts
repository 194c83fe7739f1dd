import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { readNames } from '../../src/delivery/identify.ts'
import type { NameProblem, NameReading } from '../../src/naming/name-reading.ts'
import { parsePattern } from '../../src/naming/naming.ts'
import type { FieldConstraint } from '../../src/naming/naming-field.ts'

const PATTERN = '{deliverable}/{family}-{given}_{staff-id}.jpg'
const ORDERED = ['print', 'web']
const YEAR: Record<string, FieldConstraint> = { year: { digits: 4 } }

function readAll(
  files: readonly string[],
  {
    pattern = PATTERN,
    fields = { 'staff-id': { digits: 5 } } as Record<string, FieldConstraint>,
    root = '/deliveries/osprey',
  } = {},
): NameReading[] {
  const parsed = parsePattern(pattern, fields, ORDERED)
  if ('problems' in parsed) throw new Error(JSON.stringify(parsed.problems))
  const found = files.map((file) => ({ path: join(root, file), file }))
  return readNames(found, parsed.pattern, ORDERED)
}

function read(file: string, options: Parameters<typeof readAll>[1] = {}): NameReading {
  return readAll([file], options)[0] as NameReading
}

test('a good name gives its fields and its deliverable', () => {
  expect(read('print/Abara-Nkem_00123.jpg')).toEqual({
    path: 'print/Abara-Nkem_00123.jpg',
    pattern: PATTERN,
    fields: { deliverable: 'print', family: 'Abara', given: 'Nkem', 'staff-id': '00123' },
    deliverable: 'print',
    problems: [],
  })
})

test('other readings of a double name are kept, the likeliest first', () => {
  const { fields, otherReadings } = read('web/Smith-Jones-Anna_00123.jpg')
  expect(fields).toMatchObject({ family: 'Smith-Jones', given: 'Anna' })
  expect(otherReadings).toEqual([
    { deliverable: 'web', family: 'Smith', given: 'Jones-Anna', 'staff-id': '00123' },
  ])
})

describe('problems', () => {
  const cases: [string, string, NameProblem[]][] = [
    [
      'too few digits',
      'print/Abara-Nkem_1234.jpg',
      [{ kind: 'field', field: 'staff-id', wanted: '5 digits', found: '1234' }],
    ],
    ['other extension', 'print/Abara-Nkem_00123.png', [{ kind: 'extension', wanted: '.jpg', found: '.png' }]],
    ['no extension', 'print/Abara-Nkem_00123', [{ kind: 'extension', wanted: '.jpg', found: '' }]],
    [
      'capital extension',
      'print/Abara-Nkem_00123.JPG',
      [{ kind: 'letter-case', wanted: '.jpg', found: '.JPG' }],
    ],
    [
      'two faults in one name',
      'print/Abara-Nkem_123.jpeg',
      [
        { kind: 'extension', wanted: '.jpg', found: '.jpeg' },
        { kind: 'field', field: 'staff-id', wanted: '5 digits', found: '123' },
      ],
    ],
    [
      'misspelled folder',
      'pritn/Abara-Nkem_00123.jpg',
      [{ kind: 'deliverable', found: 'pritn', nearest: 'print', folder: 'pritn' }],
    ],
    [
      'folder of nothing ordered',
      'retakes/Abara-Nkem_00123.jpg',
      [{ kind: 'deliverable', found: 'retakes', nearest: null, folder: 'retakes' }],
    ],
    [
      'folder with a capital letter',
      'Print/Abara-Nkem_00123.jpg',
      [{ kind: 'letter-case', wanted: 'print', found: 'Print', folder: 'Print' }],
    ],
    [
      'other separator',
      'print/Abara_Nkem_00123.jpg',
      [{ kind: 'no-match', at: 11, wanted: '-', found: '_Nkem_00123.jpg' }],
    ],
    [
      'no-match with another extension shows what is there',
      'print/Abara.png',
      [
        { kind: 'extension', wanted: '.jpg', found: '.png' },
        { kind: 'no-match', at: 11, wanted: '-', found: '.png' },
      ],
    ],
    [
      'full-width digits are no digits',
      'print/Abara-Nkem_００１２３.jpg',
      [{ kind: 'field', field: 'staff-id', wanted: '5 digits', found: '００１２３' }],
    ],
  ]
  test.each(cases)('%s', (_, file, problems) => {
    expect(read(file).problems).toEqual(problems)
  })

  test('a decomposed name is read as its composed form', () => {
    const file = 'print/Ångström-Zoë_00123.jpg'.normalize('NFD')
    const { fields, problems } = read(file)
    expect(fields).toMatchObject({ family: 'Ångström'.normalize('NFC'), given: 'Zoë'.normalize('NFC') })
    expect(problems).toEqual([{ kind: 'not-nfc', composed: file.normalize('NFC') }])
  })

  test('of the system come after those of the pattern, collisions last', () => {
    const [first] = readAll(['print/Abara-Nkem_1234 .jpg', 'Print/Abara-Nkem_1234 .jpg'])
    expect(first?.problems.map(({ kind }) => kind)).toEqual(['field', 'collision'])
  })
})

describe('the deliverable', () => {
  test('is known in spite of capital letters, and of faults elsewhere in the name', () => {
    expect(read('PRINT/whoever.jpg').deliverable).toBe('print')
  })

  test('is the one that a misspelled name most likely means, and unknown when that could be two or none', () => {
    expect(read('pritn/Abara-Nkem_00123.jpg').deliverable).toBe('print')
    expect(read('retakes/Abara-Nkem_00123.jpg').deliverable).toBeNull()
    const parsed = parsePattern('{deliverable}/{family}.jpg', {}, ['web1', 'web2'])
    if ('problems' in parsed) throw new Error(JSON.stringify(parsed.problems))
    const found = [{ path: '/d/web3/Abara.jpg', file: 'web3/Abara.jpg' }]
    expect(readNames(found, parsed.pattern, ['web1', 'web2'])[0]?.deliverable).toBeNull()
  })

  test('is the only one there is when the pattern does not tell', () => {
    const files = [{ path: '/d/a.jpg', file: 'a.jpg' }]
    expect(readNames(files, null, ['print'])[0]?.deliverable).toBe('print')
    expect(readNames(files, null, ORDERED)[0]?.deliverable).toBeNull()
    expect(readNames(files, null, [])[0]?.deliverable).toBeNull()
    expect(read('Abara.jpg', { pattern: '{family}.jpg', fields: {} }).deliverable).toBeNull()
  })
})

describe('folders', () => {
  test('above those of the pattern do not count', () => {
    const { fields, problems } = read('2024/march/web/Abara-Nkem_00123.jpg')
    expect(problems).toEqual([])
    expect(fields.deliverable).toBe('web')
  })

  test('that the root hides are taken from its path, so that one folder can be checked alone', () => {
    const { path, fields, problems } = read('Abara-Nkem_00123.jpg', { root: '/deliveries/osprey/web' })
    expect(problems).toEqual([])
    expect(path).toBe('Abara-Nkem_00123.jpg')
    expect(fields.deliverable).toBe('web')
  })

  test('with wrong names are told by their paths, those that the root hides by their names', () => {
    const folderOf = (file: string, root?: string) => {
      const { problems } = read(file, {
        pattern: '{year}/{deliverable}/{family}.jpg',
        fields: YEAR,
        ...(root && { root }),
      })
      return problems.map((problem) => ('folder' in problem ? problem.folder : undefined))
    }
    expect(folderOf('old/26/retakes/Abara.jpg')).toEqual(['old/26', 'old/26/retakes'])
    expect(folderOf('retakes/Abara.jpg', '/deliveries/26')).toEqual(['26', 'retakes'])
    expect(folderOf('Abara.jpg', '/deliveries/26/retakes')).toEqual(['26', 'retakes'])
  })

  test('that the root hides give places at the start of what is shown', () => {
    const { problems } = read('Abara_Nkem.jpg', { root: '/deliveries/osprey/web' })
    expect(problems).toEqual([{ kind: 'no-match', at: 5, wanted: '-', found: '_Nkem.jpg' }])
  })

  test('may have fixed texts', () => {
    const options = { pattern: 'final_{deliverable}/{family}.jpg', fields: {} }
    expect(read('final_web/Abara.jpg', options).problems).toEqual([])
    expect(read('draft_web/Abara.jpg', options).problems).toEqual([
      { kind: 'no-match', at: 0, wanted: 'final_', found: 'draft_web', folder: 'draft_web' },
    ])
  })
})

test('{ext} takes what comes after the last dot', () => {
  const options = { pattern: '{family}.{ext}', fields: { ext: { 'one-of': ['jpg', 'tif'] } } }
  expect(read('Abara.b.jpg', options)).toMatchObject({
    fields: { family: 'Abara.b', ext: 'jpg' },
    problems: [],
  })
  expect(read('Abara.b.jpg', { ...options, fields: {} }).otherReadings).toBeUndefined()
  expect(read('Abara.png', options).problems).toEqual([
    { kind: 'field', field: 'ext', wanted: 'one of jpg, tif', found: 'png' },
  ])
})

test('without a pattern only what systems refuse is told', () => {
  const files = [{ path: '/d/aux.jpg', file: 'aux.jpg' }]
  expect(readNames(files, null, [])).toEqual([
    {
      path: 'aux.jpg',
      pattern: null,
      fields: {},
      deliverable: null,
      problems: [{ kind: 'windows', part: 'aux.jpg', why: 'is reserved for a device' }],
    },
  ])
})
