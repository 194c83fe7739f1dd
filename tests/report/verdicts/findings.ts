import { parse } from 'csv-parse/sync'
import type { Report } from '../../../src/judge/report.ts'
import { csv } from '../../../src/report/csv.ts'
import { htmlReport } from '../../../src/report/html/html.ts'
import { json } from '../../../src/report/json.ts'
import { junit } from '../../../src/report/junit.ts'
import { markdown } from '../../../src/report/markdown.ts'
import { table } from '../../../src/report/table.ts'

/** A failure as a format tells it. */
export interface Told {
  /** What stands with it: the file or files, the people, the sentences. */
  readonly text: string
  readonly rule: string
  /** Absent where the format gives no column to it. */
  readonly measured?: string | null
  readonly fix: string
}

const AT = { at: new Date('2027-02-03T10:00:00Z') }

/** The failures that a format tells, unfolded where it folds long lists; read from its text alone. */
export const FINDINGS: Readonly<Record<string, (report: Report) => readonly Told[]>> = {
  json: (report) => {
    const { files, delivery }: Report = JSON.parse(json(report))
    return [
      ...files.flatMap(({ file, outcomes }) => outcomes.map((outcome) => ({ ...outcome, about: [file] }))),
      ...delivery.outcomes.map((outcome) => ({ ...outcome, about: [...outcome.people, ...outcome.files] })),
    ]
      .filter(({ verdict }) => verdict === 'fail')
      .map(({ about, rule, measured, reason, fix = '' }) => ({
        ...{ text: [...about, reason].join('\n'), rule, measured, fix },
      }))
  },
  csv: (report) => {
    const rows: Record<string, string>[] = parse(csv(report), { columns: true, bom: true })
    return rows
      .filter(({ verdict }) => verdict === 'fail')
      .map(({ file, person, reason, rule = '', measured = '', fix = '' }) => ({
        ...{ text: [file, person, reason].join('\n'), rule, measured: measured || null, fix },
      }))
  },
  junit: (report) => {
    const cases = junit(report, AT).matchAll(
      /<testcase name="([^"]*)" classname="([^"]*)"[^>]*><failure type="fail" message="([^"]*)">/g,
    )
    return [...cases].map(([, rule = '', file = '', message = '']) => {
      const text = plain(message)
      return { text: `${plain(file)}\n${text}`, rule, fix: text }
    })
  },
  markdown: (report) => {
    const section =
      markdown(report, { all: true })
        .split('\n### ')
        .find((one) => one.startsWith('Need work')) ?? ''
    const rows = section.split('\n').filter((line) => line.startsWith('| '))
    return rows.slice(2).map((row) => {
      const [about = '', rule = '', reason = '', fix = ''] = row
        .slice(2, -2)
        .split(' | ')
        .map((cell) => plain(cell).replaceAll('\u200b', ''))
      return { text: `${about}\n${reason}`, rule, fix }
    })
  },
  table: (report) => {
    // So wide that nothing is broken into lines.
    const lines = table(report, { columns: 20_000, color: false, all: true }).split('\n')
    let file = ''
    return lines.flatMap((line) => {
      if (/^ {2}\S/.test(line)) file = line.trim()
      if (/^\S/.test(line)) file = ''
      const [, rule = '', reason = '', fix = ''] =
        /^ {4}fail {2,}(\S+) {2,}(.*?)(?: {2,}Fix: (.*))?$/.exec(line) ?? []
      return rule === '' ? [] : [{ text: `${file}\n${reason}`, rule, fix: fix.trim() }]
    })
  },
  page: (report) => {
    const { index } = htmlReport(report, { pictures: new Map(), ...AT, name: 'report.html' })
    const parts = index.split(/<article class="card"/)
    return parts.flatMap((part) => {
      const file = /<h3[^>]*>.*?<bdi>(.*?)<\/bdi>/s.exec(part)?.[1] ?? ''
      return [...part.matchAll(/<li class="fail"><p class="rule">.*?<b>(.*?)<\/b>(.*?)<\/li>/gs)].map(
        ([, rule = '', inner = '']) => ({
          text: plain(`${file}\n${inner.replace(/<[^>]*>/g, ' ')}`),
          rule,
          measured: plain(/<dt>Measured<\/dt><dd><bdi>(.*?)<\/bdi>/.exec(inner)?.[1] ?? '') || null,
          fix: plain(/<b>Fix<\/b> <bdi>(.*?)<\/bdi>/.exec(inner)?.[1] ?? ''),
        }),
      )
    })
  },
}

const ENTITIES: Readonly<Record<string, string>> = { '&lt;': '<', '&gt;': '>', '&quot;': '"', '&amp;': '&' }

/** Text as it was before it was made harmless for HTML, XML or Markdown. */
function plain(text: string): string {
  return text
    .replace(/&#(\d+);/g, (_, code: string) => String.fromCodePoint(Number(code)))
    .replace(/&(?:lt|gt|quot|amp);/g, (entity) => ENTITIES[entity] ?? entity)
}
