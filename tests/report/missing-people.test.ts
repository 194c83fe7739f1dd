import { parse } from 'csv-parse/sync'
import { expect, test } from 'vitest'
import { csv } from '../../src/report/csv.ts'
import { junit } from '../../src/report/junit.ts'
import { markdown } from '../../src/report/markdown.ts'
import { table } from '../../src/report/table.ts'
import { wholeReport } from '../judge/whole.ts'
import { pageOn } from './html/sample.ts'

const IDS = Array.from({ length: 40 }, (_, i) => String(i + 1).padStart(5, '0'))
const STAFF = `family,given,staff-id\n${IDS.map((id) => `Lund,Person,${id}`).join('\n')}\n`
const FIRST = ['print/Lund-Person_00001.jpg', 'web/Lund-Person_00001.jpg']
const ALONE = wholeReport(FIRST, [], {}, STAFF)
const BLOCK = '39 people are missing: Lund Person 00002, Lund Person 00003,'
const times = (text: string, part: string) => text.split(part).length - 1

test('39 missing people are one block wherever a report is read', async () => {
  const shown = {
    table: table(ALONE, { columns: 10_000, color: false }),
    markdown: markdown(ALONE),
    junit: junit(ALONE, { at: new Date('2026-11-25T00:00:00Z') }),
    page: await pageOn(ALONE),
  }
  for (const [format, text] of Object.entries(shown)) {
    expect(text, format).toContain(BLOCK)
    expect(text, format).not.toContain('has no portrait in the delivery')
  }
  expect(times(shown.junit, '<testcase name="roster"')).toBe(1)
  expect(times(shown.markdown, '| roster |')).toBe(1)
  expect(shown.markdown).toContain(
    '| Lund Person 00002, Lund Person 00003, Lund Person 00004, Lund Person 00005, 35 more | roster |',
  )
})

test('in the table for a spreadsheet each of them has a row', () => {
  const rows: Record<string, string>[] = parse(csv(ALONE), { bom: true, columns: true })
  const missing = rows.filter(({ rule }) => rule === 'roster').map(({ person }) => person)
  expect(missing).toEqual(IDS.slice(1).map((id) => `Lund Person ${id}`))
})

test('a stranger who may be somebody missing has no row, and a question mark in that of the person', async () => {
  const staff = 'family,given,staff-id\nLund,Bjørn,00990\nNair,Priya,15388\n'
  const files = ['print/Lund-Bjørn_00990.jpg', 'web/Lund-Bjørn_00990.jpg', 'web/Nayar-Priya_15399.jpg']
  const report = wholeReport(files, [], {}, staff)
  const text = table(report, { columns: 100, color: false })
  expect(text).toContain('Who has what: 1 of 2 people complete')
  expect(text).toMatch(/Nair Priya 15388 \(Nayar Priya +MISSING +maybe\?\n +15399\?\)/)
  expect(text).not.toContain('(not on the roster)')
  expect(markdown(report)).toContain('| Nair Priya 15388 (Nayar Priya 15399?) | **missing** | **maybe?** |')
  expect(await pageOn(report)).toContain('<bdi>Nayar Priya 15399</bdi>?')
  const rows: Record<string, string>[] = parse(csv(report), { bom: true, columns: true })
  expect(rows.filter(({ person }) => person === 'Nair Priya 15388')).toEqual([
    expect.objectContaining({
      'file verdict': 'missing',
      reason: 'Perhaps delivered as "Nayar Priya 15399".',
    }),
  ])
})

test('who has left and still has files is told in every format', async () => {
  const staff = 'family,given,staff-id,left\nLund,Bjørn,00990,2026-03-31\nNair,Priya,15388,2027-03-31\n'
  const files = ['Lund-Bjørn_00990', 'Nair-Priya_15388'].flatMap((name) => [
    `print/${name}.jpg`,
    `web/${name}.jpg`,
  ])
  const report = wholeReport(files, [], {}, staff)
  expect(report).toMatchObject({ verdict: 'fail', totals: { pass: 2, fail: 2, warnings: 1 } })
  const gone = 'left on 2026-03-31 (line 2 of staff.csv): take these files down.'
  const going = 'leaves on 2027-03-31 (line 3 of staff.csv): take these files down then.'
  const at = new Date('2026-11-25T00:00:00Z')
  const all = [
    table(report, { columns: 1000, color: false }),
    ...[markdown(report), csv(report), junit(report, { at }), await pageOn(report)],
  ]
  for (const text of all) {
    expect(text).toContain(gone)
    expect(text).toContain(going)
  }
})
