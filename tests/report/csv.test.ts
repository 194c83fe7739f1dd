import { execFileSync } from 'node:child_process'
import { parse } from 'csv-parse/sync'
import { expect, test } from 'vitest'
import { csv } from '../../src/report/csv.ts'
import { reportOn } from '../judge/sample.ts'
import { wholeReport } from '../judge/whole.ts'
import { face, head, UNREAD } from '../rules/judging/cases.ts'

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

test('a row a finding, and a row for a portrait without one', () => {
  const rows = rowsOf(csv(REPORT))
  expect(rows.map((row) => [row.file, row['file verdict'], row.rule, row.verdict, row.weight])).toEqual([
    ['print/Lindqvist-Åsa_00125.jpg', 'fail', 'headroom', 'fail', 'binding'],
    ['print/Lindqvist-Åsa_00125.jpg', 'fail', 'tilt', 'fail', 'advisory'],
    ['print/Moreau-Luc_00126.jpg', 'fail', 'intact', 'fail', 'binding'],
    ['print/Okafor-Ada_00124.jpg', 'pass', '', '', ''],
  ])
  expect(rows[0]).toMatchObject({
    deliverable: 'print',
    measured: '4.1 %',
    asked: '6 to 12 %',
    reason: expect.stringContaining('Headroom is 4.1 %'),
    fix: expect.stringMatching(/./),
  })
})

test('findings on the delivery stand beside each file and person they are about; nobody without a file is left out', () => {
  const files = ['print/Lund-Bjørn_00990.jpg', 'web/Lund-Bjørn_00990.jpg', 'more/web/Lund-Bjørn_00990.jpg']
  const rows = rowsOf(csv(wholeReport(files)))
  const withRule = (rule: string) =>
    rows.filter((one) => one.rule === rule).map(({ person, file }) => [person, file])
  expect(withRule('variants')).toEqual([
    ['Lund Bjørn 00990', 'more/web/Lund-Bjørn_00990.jpg'],
    ['Lund Bjørn 00990', 'web/Lund-Bjørn_00990.jpg'],
  ])
  expect(withRule('roster')).toEqual([['Nair Priya 15388', '']])
  expect(rows.find(({ person }) => person === 'Pham Linh 17001')).toMatchObject({
    'file verdict': 'absent',
    rule: '',
    reason: 'on leave',
  })
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

test('nothing judged is an empty sheet', () => {
  expect(rowsOf(csv(reportOn([])))).toEqual([])
})
