import { readdir, readFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { readRows } from '../../src/people/roster-rows.ts'

/** npm csv-spectrum 2.0.0: CSV files of all sorts, and what is in them as JSON. */
const SPECTRUM = dirname(fileURLToPath(import.meta.resolve('csv-spectrum')))
const files = await readdir(join(SPECTRUM, 'csvs'))

test('the whole spectrum is there', () => {
  expect(files).toHaveLength(12)
})

// Its answer is one object, not a list, and has another phone number than its CSV; the rest of it holds.
const FLAWED = 'location_coordinates.csv'

test(`csv-spectrum: ${FLAWED}, but for the flaw of its answer`, async () => {
  const [header = [], row = [], ...more] = valuesOf(await readFile(join(SPECTRUM, 'csvs', FLAWED), 'utf8'))
  const answer: unknown = JSON.parse(
    await readFile(join(SPECTRUM, 'json', 'location_coordinates.json'), 'utf8'),
  )
  const { 'Contact Phone Number': phone, ...rest } = Object.fromEntries(
    header.map((name, i) => [name, row[i]]),
  )
  expect(answer).toMatchObject(rest)
  expect(phone).toBe('2095257564')
  expect(more).toEqual([])
})

test.each(files.filter((file) => file !== FLAWED))('csv-spectrum: %s', async (file) => {
  const text = await readFile(join(SPECTRUM, 'csvs', file), 'utf8')
  const wanted: unknown = JSON.parse(
    await readFile(join(SPECTRUM, 'json', file.replace('.csv', '.json')), 'utf8'),
  )
  const [header = [], ...rows] = valuesOf(text)
  expect(rows.map((row) => Object.fromEntries(header.map((name, i) => [name, row[i]])))).toEqual(wanted)
})

// RFC 4180, section 2: the examples of its numbered definitions.
describe('RFC 4180', () => {
  test.each([
    ['1: records end in CRLF', 'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n'],
    ['2: the last line end may be missing', 'aaa,bbb,ccc\r\nzzz,yyy,xxx'],
    ['5: values may stand in quotes', '"aaa","bbb","ccc"\r\nzzz,yyy,xxx'],
  ])('%s', (_, text) => {
    expect(valuesOf(text)).toEqual([
      ['aaa', 'bbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ])
  })

  test('4: spaces are part of a value', () => {
    expect(valuesOf('aaa , bbb,ccc')).toEqual([['aaa ', ' bbb', 'ccc']])
  })

  test('6: line breaks and commas within quotes', () => {
    expect(valuesOf('"aaa","b\r\nbb","c,cc"\r\nzzz,yyy,xxx')).toEqual([
      ['aaa', 'b\r\nbb', 'c,cc'],
      ['zzz', 'yyy', 'xxx'],
    ])
  })

  test('7: quotes are doubled within quotes', () => {
    expect(valuesOf('"aaa","b""bb","ccc"')).toEqual([['aaa', 'b"bb', 'ccc']])
  })
})

test('semicolons, as spreadsheets write where the comma is for decimals', () => {
  expect(valuesOf('family;height\r\n"Lund; Bjørn";1,82\r\n')).toEqual([
    ['family', 'height'],
    ['Lund; Bjørn', '1,82'],
  ])
})

test('a semicolon in a quoted heading does not count', () => {
  expect(valuesOf('"a;b;c",d\n1,2')).toEqual([
    ['a;b;c', 'd'],
    ['1', '2'],
  ])
})

test('a quote inside a value that does not begin with one is a character', () => {
  expect(valuesOf('name,height\nLund,6\' 2"\n')[1]).toEqual(['Lund', '6\' 2"'])
})

test('lines are those of the file, whatever ends them and stands within quotes', () => {
  const rows = (text: string) => linesOf(text)
  expect(rows('a,b\n\n1,"x\ny"\n2,3')).toEqual([1, 3, 5])
  expect(rows('a,b\r\n"1\r\n\r\n2",3\r\n\r\n4,"5\r\n6"\r\n7,8')).toEqual([1, 2, 6, 8])
  expect(rows('a,b\r1,2\r3,4')).toEqual([1, 2, 3])
  expect(rows('a,b\n,\n1,2')).toEqual([1, 3])
})

test.each([['a,b\n1,"never closed', 2, 'never closed']])(
  'what is no CSV is told: %j',
  (text, line, words) => {
    const read = readRows(text)
    expect(read).toMatchObject({ problem: { line } })
    expect('problem' in read && read.problem.message).toContain(words)
  },
)

function valuesOf(text: string): (readonly string[])[] {
  const read = readRows(text)
  if ('problem' in read) throw new Error(read.problem.message)
  return read.rows.map(({ values }) => values)
}

function linesOf(text: string): number[] {
  const read = readRows(text)
  if ('problem' in read) throw new Error(read.problem.message)
  return read.rows.map(({ line }) => line)
}

test('a list that goes on without end is refused in a sentence', () => {
  const problem = { line: 50_001, message: expect.stringContaining('more than 50000 lines') }
  expect(readRows(`family\n${'x\n'.repeat(50_000)}`)).toEqual({ problem })
  expect(readRows(`family\n${'x\n'.repeat(49_999)}`)).toHaveProperty('rows')
})
