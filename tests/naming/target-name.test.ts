import { describe, expect, test } from 'vitest'
import { pathReader, readNames } from '../../src/delivery/identify.ts'
import { parsePattern } from '../../src/naming/naming.ts'
import type { FieldConstraint } from '../../src/naming/naming-field.ts'
import { type KnownOfFile, targetName } from '../../src/naming/target-name.ts'

const ORDERED = ['print', 'web']
const NOTHING: KnownOfFile = { person: null, extensions: ['jpg', 'jpeg', 'jpe', 'jfif'] }
const ABARA = { family: 'Abara', given: 'Ngozi', 'staff-id': '00123' }

interface Named {
  readonly pattern?: string
  readonly fields?: Readonly<Record<string, FieldConstraint>>
  readonly root?: string
}

function target(file: string, known: Partial<KnownOfFile> = {}, named: Named = {}) {
  const { pattern = '{deliverable}/{family}-{given}_{staff-id}.jpg', root = '/deliveries/osprey' } = named
  const parsed = parsePattern(pattern, named.fields ?? { 'staff-id': { digits: 5 } }, ORDERED)
  if ('problems' in parsed) throw new Error(JSON.stringify(parsed.problems))
  const [name] = readNames([{ file, path: `${root}/${file}` }], parsed.pattern, ORDERED)
  if (!name) throw new Error('A name was given.')
  return targetName(name, { ...NOTHING, ...known }, pathReader(parsed.pattern, ORDERED))
}

test('a name that is right is its own target', () => {
  expect(target('web/Abara-Ngozi_00123.jpg')).toEqual({ path: 'web/Abara-Ngozi_00123.jpg', fits: true })
})

describe('what is wrong is put right', () => {
  test.each([
    ['a copy', 'web/Abara-Ngozi_00123 copy.jpg'],
    ['another way to write the extension', 'web/Abara-Ngozi_00123.JPEG'],
    ['no extension', 'web/Abara-Ngozi_00123'],
    ['a space after the extension', 'web/Abara-Ngozi_00123.jpg '],
    ['the case of the folder', 'WEB/Abara-Ngozi_00123.jpg'],
    ['a misspelled folder', 'wbeb/Abara-Ngozi_00123.jpg'],
    // Unicode UAX #15: full-width digits are compatible with the plain ones.
    ['full-width digits', 'web/Abara-Ngozi_００１２３.jpg'],
    ['all of it', 'Web/Abara-Ngozi_00123 (1).JPG'],
  ])('%s', (_, file) => {
    expect(target(file)?.path).toBe('web/Abara-Ngozi_00123.jpg')
  })

  test('accents stored apart', () => {
    const file = 'web/Ngozi\u0308-A_00123.jpg'
    expect(target(file)?.path).toBe('web/Ngoz\u00ef-A_00123.jpg'.normalize('NFC'))
  })
  test('letters that must be small', () => {
    const fields = { family: { case: 'lower' as const } }
    expect(target('Abara.jpg', {}, { pattern: '{family}.jpg', fields })?.path).toBe('abara.jpg')
  })
  test('one of a few values', () => {
    const fields = { office: { 'one-of': ['north', 'south'] } }
    expect(target('Nort_Abara.jpg', {}, { pattern: '{office}_{family}.jpg', fields })?.path).toBe(
      'north_Abara.jpg',
    )
  })
  test('folders above those of the pattern stay', () => {
    expect(target('day 1/web/Abara-Ngozi_00123 copy.jpg')?.path).toBe('day 1/web/Abara-Ngozi_00123.jpg')
  })
  test('a folder that lies above the delivery is not renamed from within', () => {
    const named = { root: '/deliveries/web' }
    expect(target('Abara-Ngozi_00123 copy.jpg', {}, named)?.path).toBe('Abara-Ngozi_00123.jpg')
    expect(target('Abara-Ngozi_00123.jpg', {}, { root: '/deliveries/wbe' })).toBeNull()
  })
})

describe('the person counts for more than the name', () => {
  test.each(['web/Abara-Ngosi_00123.jpg', 'web/Abara-Ngozi_123.jpg', 'web/abara-ngozi_00123.jpg'])(
    '%s',
    (file) => {
      expect(target(file, { person: ABARA })?.path).toBe('web/Abara-Ngozi_00123.jpg')
    },
  )
})

describe('what nobody can tell', () => {
  test.each([
    ['a number of too few digits', 'web/Abara-Ngozi_123.jpg'],
    ['a name that does not fit', 'web/IMG_4711.jpg'],
    ['a folder like none', 'retakes/Abara-Ngozi_00123.jpg'],
  ])('%s', (_, file) => {
    expect(target(file)).toBeNull()
  })
  test('a person whose name would make a folder', () => {
    expect(target('web/Abara-Ngosi_00123.jpg', { person: { ...ABARA, given: 'Ngo/zi' } })).toBeNull()
  })
  test('a person whose name can not be read back', () => {
    expect(target('web/A_1.jpg', { person: { ...ABARA, 'staff-id': '' } })).toBeNull()
  })
})

describe('the extension and the content', () => {
  test('another format keeps from renaming', () => {
    expect(target('web/Abara-Ngozi_00123.png', { extensions: ['png'] })).toEqual({
      path: 'web/Abara-Ngozi_00123.jpg',
      fits: false,
    })
  })
  const open: Named = { pattern: '{family}.{ext}', fields: {} }
  test.each([
    ['Abara.jpg', ['png'], 'Abara.png'],
    ['Abara.PNG', ['png'], 'Abara.PNG'],
    ['Abara.jpeg', ['jpg', 'jpeg'], 'Abara.jpeg'],
    ['Abara.tif', null, 'Abara.tif'],
  ])('the pattern takes any, %s of %s is %s', (file, extensions, wanted) => {
    expect(target(file, { extensions }, open)).toEqual({ path: wanted, fits: true })
  })
  test('the pattern takes a few', () => {
    const few: Named = { pattern: '{family}.{ext}', fields: { ext: { 'one-of': ['jpg'] } } }
    expect(target('Abara.JPEG', {}, few)?.path).toBe('Abara.jpg')
    expect(target('Abara.png', { extensions: ['png'] }, few)).toBeNull()
  })
})
