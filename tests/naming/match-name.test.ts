import { describe, expect, test } from 'vitest'
import { type Match, matchName } from '../../src/naming/match-name.ts'
import type { NamePiece } from '../../src/naming/naming.ts'
import { parsePattern } from '../../src/naming/naming.ts'
import { type FieldConstraint, fieldCheck } from '../../src/naming/naming-field.ts'
import { seeded } from '../random.ts'

/** @param checked called with each field that is checked */
function read(
  pattern: string,
  name: string,
  fields: Record<string, FieldConstraint> = {},
  checked = (_field: string) => {},
): Match {
  const parsed = parsePattern(pattern, fields, [])
  if ('problems' in parsed) throw new Error(JSON.stringify(parsed.problems))
  const pieces = parsed.pattern.segments[0] as readonly NamePiece[]
  return matchName(name, pieces, (field) => {
    const constraint = fields[field]
    const check = constraint ? fieldCheck(constraint) : () => null
    return (value) => {
      checked(field)
      return check(value)
    }
  })
}

/** A pattern of twelve fields between dashes, and how many values are checked of a name. */
function checksOf(name: string): { match: Match; checks: number } {
  const fields = Array.from({ length: 12 }, (_, i) => ({ field: `f${i}` }))
  const pieces = fields.flatMap((field, i) => (i === 0 ? [field] : [{ text: '-' }, field]))
  let checks = 0
  const match = matchName(name, pieces, () => (value) => {
    checks++
    return value === 'a' ? null : 'an a'
  })
  return { match, checks }
}

function fieldsOf(match: Match): Record<string, string>[] {
  if (!('splits' in match)) throw new Error(`no match: ${JSON.stringify(match)}`)
  return match.splits.map((split) =>
    Object.fromEntries(split.flatMap((piece) => ('field' in piece ? [[piece.field, piece.value]] : []))),
  )
}

const staff = { 'staff-id': { digits: 5 } } as const

describe('a name that fits', () => {
  test('is read field by field', () => {
    expect(fieldsOf(read('{family}-{given}_{staff-id}.jpg', 'Abara-Nkem_00123.jpg', staff))).toEqual([
      { family: 'Abara', given: 'Nkem', 'staff-id': '00123' },
    ])
  })

  test('with the separator in a name has several readings; an earlier field takes the longer text first', () => {
    expect(fieldsOf(read('{family}-{given}_{staff-id}.jpg', 'Smith-Jones-Anna_00123.jpg', staff))).toEqual([
      { family: 'Smith-Jones', given: 'Anna', 'staff-id': '00123' },
      { family: 'Smith', given: 'Jones-Anna', 'staff-id': '00123' },
    ])
  })

  test('is split where the constraints hold, when they decide it', () => {
    const fields = { team: { 'one-of': ['front-desk', 'surgery'] }, nr: { digits: { min: 1, max: 3 } } }
    expect(fieldsOf(read('{nr}-{team}-{given}', '7-front-desk-Anna-Lena', fields))).toEqual([
      { nr: '7', team: 'front-desk', given: 'Anna-Lena' },
    ])
  })

  test('letter case of a fixed text does not count for finding the split', () => {
    const match = read('{family}_web.jpg', 'Abara_WEB.JPG')
    expect(match).toEqual({
      splits: [
        [
          { field: 'family', value: 'Abara' },
          { text: '_web.jpg', value: '_WEB.JPG' },
        ],
      ],
    })
  })
})

test('a missed constraint leaves the other fields read', () => {
  expect(fieldsOf(read('{family}-{given}_{staff-id}.jpg', 'Abara-Nkem_1234.jpg', staff))).toEqual([
    { family: 'Abara', given: 'Nkem', 'staff-id': '1234' },
  ])
})

describe('a name that does not fit tells how far it was read', () => {
  test.each([
    ['other separator', '{family}-{given}.jpg', 'Abara_Nkem.jpg', 5, '-', []],
    ['no separator', '{family}-{given}.jpg', 'Abara.jpg', 5, '-', []],
    ['second separator missing', '{family}-{given}_{ext}', 'Abara-Nkem00123', 15, '_', ['family']],
    ['other beginning', 'osprey_{family}.jpg', 'lane_Abara.jpg', 0, 'osprey_', []],
    ['empty field', '{family}-{given}', 'Abara-', 6, '{given}', ['family']],
    ['empty first field', '{family}-{given}', '-Nkem', 5, '-', []],
    ['text after the end', 'portrait.jpg', 'portrait.jpg.bak', 12, '', []],
    ['empty name', '{family}', '', 0, '{family}', []],
  ])('%s', (_, pattern, name, at, wanted, fields) => {
    const match = read(pattern, name)
    if ('splits' in match) throw new Error('unexpected match')
    expect({ at: match.at, wanted: match.wanted }).toEqual({ at, wanted })
    expect(match.read.flatMap((piece) => ('field' in piece ? [piece.field] : []))).toEqual(fields)
  })
})

test('agrees with greedy regular expressions of the JavaScript engine on random names', () => {
  const random = seeded(11)
  const pick = (letters: string, most: number) =>
    Array.from(
      { length: 1 + Math.floor(random() * most) },
      () => letters[Math.floor(random() * letters.length)],
    ).join('')
  let matched = 0
  for (let n = 0; n < 12_000; n++) {
    const texts = Array.from({ length: 3 }, () => pick('-_.', 2))
    const pattern = `{family}${texts[0]}{given}${texts[1]}{staff-id}${n % 2 ? texts[2] : ''}`
    const name = pick('ab-_.', 12)
    const expression = pattern.replaceAll('.', '\\.').replace(/\{[a-z-]+\}/g, '(.+)')
    const greedy = new RegExp(`^${expression}$`, 'u').exec(name)?.slice(1)
    const match = read(pattern, name)
    expect('splits' in match, `${pattern} ${name}`).toBe(greedy !== undefined)
    if (!greedy || !('splits' in match)) continue
    matched++
    const [first] = fieldsOf(match)
    expect(Object.values(first ?? {}), `${pattern} ${name}`).toEqual(greedy)
  }
  expect(matched).toBeGreaterThan(200)
})

describe('names that are made to take long', () => {
  // 255: the longest name that common file systems store.
  test('one of dashes alone is not split', () => {
    const { match, checks } = checksOf('-'.repeat(255))
    expect(match).toEqual({ at: 64, wanted: '', read: [] })
    expect(checks).toBe(0)
  })

  test('one with as many dashes as are looked at is, in few steps', () => {
    const { match, checks } = checksOf('-'.repeat(64))
    expect('splits' in match).toBe(true)
    expect(checks).toBeLessThan(12 * 2 * 2080)
  })
})
