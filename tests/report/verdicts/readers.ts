import { parse } from 'csv-parse/sync'
import type { Report } from '../../../src/judge/report.ts'
import { csv } from '../../../src/report/csv.ts'
import { htmlReport } from '../../../src/report/html/html.ts'
import type { Pictures } from '../../../src/report/html/pictures.ts'
import { json } from '../../../src/report/json.ts'
import { junit } from '../../../src/report/junit.ts'
import { markdown } from '../../../src/report/markdown.ts'
import { table } from '../../../src/report/table.ts'

/** A report in the forms that several readers look at. */
export interface Rendered {
  readonly report: Report
  readonly table: string
  readonly markdown: string
  /** All on one page, with pictures. */
  readonly page: string
  /** In parts, without pictures: the index and all pages; made when it is asked for. */
  readonly parts: () => readonly string[]
}

/** So wide that no path is broken into lines. */
const WIDE = { columns: 200, color: false }
const AT = { at: new Date('2027-02-03T10:00:00Z'), name: 'report.html' }
const PICTURE = { thumbnail: { widthPx: 4, heightPx: 5, jpeg: Buffer.from('not looked at') } }

/** @param all whether long lists are unfolded, in the forms that fold them */
export function rendered(report: Report, all = false): Rendered {
  const pictures: Pictures = new Map(report.files.map(({ file }) => [file, PICTURE]))
  return {
    report,
    table: table(report, { ...WIDE, all }),
    markdown: markdown(report, { all }),
    page: htmlReport(report, { ...AT, pictures }).index,
    parts: () => {
      const { index, pages } = htmlReport(report, { ...AT, pictures: new Map(), perPage: 3 })
      return [index, ...pages.values()]
    },
  }
}

/** The verdicts that a format gives, by file. */
type Reader = (rendered: Rendered) => ReadonlyMap<string, string>

export const READERS: Readonly<Record<string, Reader>> = {
  json: ({ report }) => {
    const read: Report = JSON.parse(json(report))
    return new Map(read.files.map(({ file, verdict }) => [file, verdict]))
  },
  csv: ({ report }) => {
    const rows: Record<string, string>[] = parse(csv(report), { columns: true, bom: true })
    return new Map(rows.map(({ file = '', 'file verdict': verdict = '' }) => [file, verdict]))
  },
  junit: ({ report }) => {
    const suites = [...junit(report, AT).matchAll(/<testsuite name="([^"]*)"(.*?)<\/testsuite>/gs)]
    return new Map(
      suites.map(([, name = '', rest = '']) => {
        const failures = Number(/failures="(\d+)"/.exec(rest)?.[1])
        const cases = rest.split('<testcase ').length - 1
        const skipped = Number(/skipped="(\d+)"/.exec(rest)?.[1])
        return [name, failures > 0 ? 'fail' : skipped === cases ? 'unsure' : 'not failing']
      }),
    )
  },
  page: ({ page }) => cards(page),
  'the set side by side': ({ page }) => {
    const files = new Map(
      [...page.matchAll(/<article class="card" id="([\w-]+)".*?<h3[^>]*>.*?<bdi>(.*?)<\/bdi>/gs)].map(
        ([, id = '', file = '']) => [id, file],
      ),
    )
    const places = page.matchAll(
      /<a class="place"[^>]*data-for="([\w-]+)"><span class="sr">([^:]*): .*?<span class="name (\w+)">/gs,
    )
    return new Map(
      [...places].map(([, id = '', words = '', standing = '']) => [
        files.get(id) ?? id,
        /^passes/i.test(words) ? 'passes' : verdictOf(standing),
      ]),
    )
  },
  'who has what in the page': ({ page }) => {
    const cells = [...page.matchAll(/<td class="(\w+)">(.*?)<\/td>/gs)]
    return new Map(
      cells.flatMap(([, state = '', inner = '']) =>
        [...inner.matchAll(/aria-label="[^"]*?, ([^":]+):? ?[^"]*"/g)].map(
          ([, file = '']): [string, string] => [file, state],
        ),
      ),
    )
  },
  'who has what in the table': ({ report, table: text }) => byCell(report, text, /\s{2,}/),
  'who has what in Markdown': ({ report, markdown: text }) => byCell(report, text, /\s*\|\s*/),
  'the sections of the table': ({ report, table: text }) => {
    const files = new Set(report.files.map(({ file }) => file))
    let verdict = ''
    return new Map(
      text.split('\n').flatMap((line): [string, string][] => {
        if (/^\S/.test(line)) verdict = sectionVerdict(line)
        return verdict !== '' && files.has(line.trim()) ? [[line.trim(), verdict]] : []
      }),
    )
  },
}

/** Those of a page in parts, which takes as long to make as all others. */
export const PART_READERS: typeof READERS = {
  'a page in parts': ({ parts }) => new Map(parts().flatMap((part) => [...cards(part)])),
  'the index of a page in parts': ({ parts }) => {
    const [index = ''] = parts()
    return new Map([
      // A few portraits stand on one page whatever is asked for.
      ...cards(index),
      ...[...index.matchAll(/<li class="card"[^>]*data-standing="(\w+)".*?<bdi>(.*?)<\/bdi>/gs)].map(
        ([, standing = '', file = '']): [string, string] => [file, verdictOf(standing)],
      ),
    ])
  },
}

function cards(page: string): ReadonlyMap<string, string> {
  const found = page.matchAll(
    /<article class="card".*?data-standing="(\w+)".*?<h3[^>]*>.*?<bdi>(.*?)<\/bdi>/gs,
  )
  return new Map([...found].map(([, standing = '', file = '']) => [file, verdictOf(standing)]))
}

function verdictOf(standing: string): string {
  return standing === 'warning' ? 'pass' : standing
}

function sectionVerdict(heading: string): string {
  if (/needs? work$/.test(heading)) return 'fail'
  if (/unsure: check by eye$/.test(heading)) return 'unsure'
  return /pass(es)? with warnings$/.test(heading) ? 'pass' : ''
}

/** Reads a person's row of a text, and what stands there for each file that is alone in its cell. */
function byCell(report: Report, text: string, between: RegExp): ReadonlyMap<string, string> {
  const { matrix } = report.delivery
  // Markdown writes the underscore of a name as a character reference.
  const lines = text.slice(text.indexOf('Who has what')).replaceAll('&#95;', '_').split('\n')
  return new Map(
    (matrix?.rows ?? []).flatMap(({ person, cells }) => {
      const line = lines.find((one) => one.replace(/^[|\s]+/, '').startsWith(person)) ?? ''
      const words = line
        .replace(/^[|\s]+/, '')
        .split(between)
        .slice(1)
      return cells.flatMap(({ files: [file, ...others] }, i): [string, string][] =>
        file === undefined || others.length > 0 ? [] : [[file, (words[i] ?? '').replace(/\*/g, '')]],
      )
    }),
  )
}
