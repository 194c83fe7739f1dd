import { describe, expect, test } from 'vitest'
import { mergedName } from '../../src/delivery/portability.ts'
import { type NamedFile, planRenames } from '../../src/delivery/renames.ts'
import { seeded } from '../random.ts'

const file = (path: string, wanted: string | null, changes: Partial<NamedFile> = {}): NamedFile => ({
  ...{ path, wanted, fits: true, isCopy: false },
  ...changes,
})
const plan = (
  files: readonly NamedFile[],
  same: readonly string[] = [],
  by: 'bytes' | 'picture' = 'bytes',
) => [...planRenames(files, (a, b) => (same.includes(a) && same.includes(b) ? by : null)).values()]

test('a right name and one that nobody knows stay', () => {
  expect(plan([file('a.jpg', 'a.jpg'), file('IMG_1.jpg', null)])).toEqual([])
})

test('a free name is taken', () => {
  expect(plan([file('a copy.jpg', 'a.jpg', { isCopy: true })])).toEqual([{ from: 'a copy.jpg', to: 'a.jpg' }])
})

describe('copies', () => {
  const files = [file('a (1).jpg', 'a.jpg', { isCopy: true }), file('a.jpg', 'a.jpg')]
  test.each(['bytes', 'picture'] as const)('the same %s are deleted', (by) => {
    expect(plan(files, ['a (1).jpg', 'a.jpg'], by)).toEqual([{ from: 'a (1).jpg', sameAs: 'a.jpg', by }])
  })
  test('another picture is put to a person', () => {
    expect(plan(files)).toEqual([{ from: 'a (1).jpg', refused: 'clash', wanted: 'a.jpg', others: ['a.jpg'] }])
  })
  test('of copies alone the first gets the name', () => {
    const copies = ['a (1).jpg', 'a copy.jpg'].map((path) => file(path, 'a.jpg', { isCopy: true }))
    expect(plan(copies, ['a (1).jpg', 'a copy.jpg'])).toEqual([
      { from: 'a copy.jpg', sameAs: 'a (1).jpg', by: 'bytes' },
      { from: 'a (1).jpg', to: 'a.jpg' },
    ])
  })
  test('what is no copy by its name goes before one', () => {
    const both = [file('a (1).jpg', 'a.jpg', { isCopy: true }), file('A.JPG', 'a.jpg')]
    expect(plan(both, ['a (1).jpg', 'A.JPG'])).toContainEqual({ from: 'A.JPG', to: 'a.jpg' })
  })
})

describe('collisions', () => {
  test('two files that want one name get none', () => {
    expect(plan([file('a1.jpg', 'a.jpg'), file('a2.jpg', 'a.jpg')])).toEqual([
      { from: 'a1.jpg', refused: 'clash', wanted: 'a.jpg', others: ['a2.jpg'] },
      { from: 'a2.jpg', refused: 'clash', wanted: 'a.jpg', others: ['a1.jpg'] },
    ])
  })
  // Unicode UAX #15: the two are canonically equivalent.
  test.each([
    ['letter case', 'Zoe.jpg', 'zoe.jpg'],
    ['Unicode form', 'Zo\u00eb.jpg', 'Zoe\u0308.jpg'],
  ])('twins by %s count as one name', (_, right, twin) => {
    const files = [file(right, right), file(twin, right)]
    expect(plan(files)).toEqual([{ from: twin, refused: 'clash', wanted: right, others: [right] }])
    expect(plan(files, [right, twin])).toEqual([{ from: twin, sameAs: right, by: 'bytes' }])
  })
  test('a name is not taken from a file that keeps it', () => {
    expect(plan([file('a.jpg', 'b.jpg'), file('b.jpg', null)])).toEqual([
      { from: 'a.jpg', refused: 'clash', wanted: 'b.jpg', others: ['b.jpg'] },
    ])
  })
  test.each([
    ['a chain', 'c.jpg'],
    ['a ring', 'a.jpg'],
  ])('nor from one that is to leave it: %s', (_, wanted) => {
    const [first] = plan([file('a.jpg', 'b.jpg'), file('b.jpg', wanted)])
    expect(first).toEqual({ from: 'a.jpg', refused: 'clash', wanted: 'b.jpg', others: ['b.jpg'] })
  })
})

test('bytes that are no text are left to a person', () => {
  expect(plan([file('web/\ufffd.jpg', 'web/a.jpg')])).toEqual([])
})

test('another format is told apart', () => {
  expect(plan([file('a.png', 'a.jpg', { fits: false })])).toEqual([
    { from: 'a.png', refused: 'format', wanted: 'a.jpg' },
  ])
})

test('a name that some system refuses is never given', () => {
  expect(plan([file('x.jpg', 'CON.jpg')])).toEqual([])
})

test('whatever is wanted, no file is lost and no two names merge', () => {
  const random = seeded(13)
  const names = ['a.jpg', 'A.jpg', 'b.jpg', 'c.jpg', '\u00e9.jpg', 'e\u0301.jpg', 'd.jpg', 'e.jpg']
  const some = <T>(values: readonly T[]) => values[Math.floor(random() * values.length)] as T
  for (let run = 0; run < 3000; run++) {
    const files = names
      .filter(() => random() < 0.7)
      .map((path) =>
        file(path, some([path, null, ...names]), { isCopy: random() < 0.3, fits: random() < 0.9 }),
      )
    const content = new Map(files.map(({ path }) => [path, some(['x', 'y', 'z', path])]))
    const same = (a: string, b: string) => (content.get(a) === content.get(b) ? 'bytes' : null)
    const renames = planRenames(files, same)
    const after = files.flatMap(({ path }) => {
      const rename = renames.get(path)
      if (rename && 'sameAs' in rename) return []
      return [rename && 'to' in rename ? rename.to : path]
    })
    // As they would be on a disk that takes letter case and Unicode form for the same.
    const holders = (name: string) => after.filter((other) => mergedName(other) === mergedName(name))
    const given = [...renames.values()].flatMap((rename) => ('to' in rename ? [rename.to] : []))
    expect(given.filter((name) => holders(name).length !== 1)).toEqual([])
    for (const rename of renames.values()) {
      if (!('sameAs' in rename)) continue
      expect(content.get(rename.sameAs)).toBe(content.get(rename.from))
      const kept = renames.get(rename.sameAs)
      expect(kept && 'sameAs' in kept).toBeFalsy()
    }
  }
})
