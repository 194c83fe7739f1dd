import { parse } from 'csv-parse/sync'
import { expect, test } from 'vitest'
import { measurementsCsv } from '../../src/report/measurements-csv.ts'
import { face, GOOD, head, UNREAD } from '../rules/judging/cases.ts'

/** Rows as another reader of RFC 4180 sees them: npm csv-parse. */
function rowsOf(text: string): Record<string, string>[] {
  return parse(text, { bom: true, columns: true, record_delimiter: '\r\n' })
}

test('a row a file, a column a measurement', () => {
  const file = 'print/Lindqvist-Åsa_00125.jpg'
  const measured = { ...GOOD, file, ...head({ headroomPct: 4.1 }), ...face({ tiltDeg: -4.1 }) }
  const rows = rowsOf(measurementsCsv([measured, { ...GOOD, ...UNREAD, file: 'b.jpg' }]))
  expect(rows[0]).toMatchObject({
    file,
    'head.headroomPct': '4.1',
    'face.tiltDeg': '-4.1',
    'background.lab.L': '96',
    'face.others': '',
    'background.doubts': '',
  })
  expect(rows[1]).toMatchObject({ file: 'b.jpg', 'head.headroomPct': '', widthPx: '' })
})

test('a signature, made from a face, stays out', () => {
  const grid = { columns: 1, rows: 1, luma: 'AA==' }
  const [row] = rowsOf(measurementsCsv([{ ...GOOD, signature: { face: grid, head: grid, frame: grid } }]))
  expect(Object.keys(row ?? {})).not.toContain('verdict')
  expect(Object.keys(row ?? {}).filter((name) => name.startsWith('signature'))).toEqual([])
})

test('nothing measured is an empty sheet', () => {
  expect(measurementsCsv([])).toBe('\ufeff\r\n')
})
