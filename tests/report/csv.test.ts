import { execFileSync } from 'node:child_process'
import { parse } from 'csv-parse/sync'
import { expect, test } from 'vitest'
import { csv, measurementsCsv } from '../../src/report/csv.ts'
import { reportOn } from '../judge/sample.ts'
import { face, GOOD, head, UNREAD } from '../rules/judging/cases.ts'

/** Rows as another reader of RFC 4180 sees them: npm csv-parse. */
function rowsOf(text: string): Record<string, string>[] {
  return parse(text, { bom: true, columns: true, record_delimiter: '\r\n' })
}

const REPORT = reportOn([
  { file: 'print/Okafor-Ada_00124.jpg' },
  {
    file: 'print/Lindqvist-Åsa_00125.jpg',
    measured: { ...head({ headroomPct: 4.1 }), ...face({ tiltDeg: -4.1 }) },
  },
  { file: 'print/Moreau-Luc_00126.jpg', measured: UNREAD },
])

test('a row a portrait, with verdict, misses and measurements', () => {
  const rows = rowsOf(csv(REPORT))
  expect(rows).toHaveLength(3)
  const [first] = rows
  expect(first).toMatchObject({
    file: 'print/Lindqvist-Åsa_00125.jpg',
    deliverable: 'print',
    verdict: 'fail',
    fails: 'headroom',
    warnings: 'tilt',
    'head.headroomPct': '4.1',
    'face.tiltDeg': '-4.1',
    'background.lab.L': '96',
    'face.others': '',
    'background.doubts': '',
  })
  expect(rows[1]).toMatchObject({ file: 'print/Moreau-Luc_00126.jpg', 'head.headroomPct': '', widthPx: '' })
})

test('RFC 4180, section 2: line breaks are CRLF, the last one too, and every row has as many fields', () => {
  const text = csv(REPORT)
  expect(text.endsWith('\r\n')).toBe(true)
  expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
  const rows: string[][] = parse(text, { bom: true })
  expect(new Set(rows.map((row) => row.length)).size).toBe(1)
})

// Characters that make a cell a formula: OWASP, "CSV Injection" (from memory), and blanks before them.
const FORMULAS = [
  '=1+1',
  '+1',
  '-1+cmd',
  '@SUM(A1)',
  '\t=1',
  '\r=1',
  ' =1',
  '\u00a0=1',
  '＝1',
  '＋1',
  '－1',
  '＠1',
  '=HYPERLINK("http://e.example","x")',
]

test.each(FORMULAS)('%j is no formula', (text) => {
  const report = reportOn([{ file: `${text}.jpg`, name: { deliverable: text, fields: { family: text } } }])
  const cells: string[][] = parse(csv(report), { bom: true, trim: true })
  const [heads, values] = cells
  for (const [i, value] of (values ?? []).entries()) {
    // Numbers of our own may be negative.
    if (/^-?\d+(\.\d+)?(e-?\d+)?$/.test(value)) continue
    expect(value, heads?.[i]).not.toMatch(/^[\s=+\-@\uff1d\uff0b\uff0d\uff20]/)
  }
})

test('quotes, commas and line breaks stay in their cell', () => {
  const name = 'a",b\r\n=1,"\u0000.jpg'
  expect(rowsOf(csv(reportOn([{ file: name }])))).toMatchObject([
    { file: 'a",b<U+000D><U+000A>=1,"<U+0000>.jpg' },
  ])
})

// Python's csv module as a third reader, where there is a Python.
test('another reader agrees', () => {
  const program =
    'import csv,io,json,sys;print(json.dumps(list(csv.reader(io.StringIO(sys.stdin.buffer.read().decode("utf-8-sig"),newline=""),strict=True))))'
  const text = csv(REPORT)
  let answer: string
  try {
    answer = execFileSync('python3', ['-c', program], { input: text, encoding: 'utf8' })
  } catch (error) {
    if (process.env.CI || !(error instanceof Error && 'code' in error && error.code === 'ENOENT')) throw error
    process.stderr.write('NOT CHECKED against the csv module of Python: python3 is not installed.\n')
    return
  }
  expect(JSON.parse(answer)).toEqual(parse(text, { bom: true }))
})

test('measurements alone; a signature, made from a face, stays out', () => {
  const grid = { columns: 1, rows: 1, luma: 'AA==' }
  const rows = rowsOf(
    measurementsCsv([GOOD, { ...GOOD, signature: { face: grid, head: grid, frame: grid } }]),
  )
  expect(rows).toHaveLength(2)
  expect(Object.keys(rows[0] ?? {})).not.toContain('verdict')
  expect(Object.keys(rows[0] ?? {}).filter((name) => name.startsWith('signature'))).toEqual([])
})

test('nothing judged is an empty sheet', () => {
  expect(csv(reportOn([]))).toBe('\ufeff\r\n')
})
