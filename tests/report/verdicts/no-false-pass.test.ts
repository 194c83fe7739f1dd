import { parse } from 'csv-parse/sync'
import { expect, test } from 'vitest'
import { annotations } from '../../../src/action/telling/annotations.ts'
import { exitCode, type Report } from '../../../src/judge/report.ts'
import { csv } from '../../../src/report/csv.ts'
import { htmlReport } from '../../../src/report/html/html.ts'
import { json } from '../../../src/report/json.ts'
import { junit } from '../../../src/report/junit.ts'
import { markdown } from '../../../src/report/markdown.ts'
import { table } from '../../../src/report/table.ts'
import { logCommands } from '../../action/runner/log-commands.ts'
import { randomReport } from './random-deliveries.ts'

const RUNS = 500

interface Truth {
  readonly fails: ReadonlySet<string>
  /** Fails, or is unsure. */
  readonly misses: ReadonlySet<string>
}

/** The files that some rule fails or is unsure about, read off the outcomes alone. */
function truthOf({ files, delivery }: Report): Truth {
  const all = [
    ...files.flatMap(({ file, outcomes }) => outcomes.map((outcome) => ({ ...outcome, files: [file] }))),
    ...delivery.outcomes,
  ].filter(({ advisory, waiver }) => !advisory && !waiver)
  const about = (verdicts: readonly string[]) =>
    new Set(all.filter(({ verdict }) => verdicts.includes(verdict)).flatMap((outcome) => outcome.files))
  return { fails: about(['fail']), misses: about(['fail', 'unsure']) }
}

/** A report with the texts that several readers look at. */
interface Rendered {
  readonly report: Report
  readonly page: string
  readonly table: string
}

/** The verdicts that a format gives, by file. */
type Reader = (rendered: Rendered) => ReadonlyMap<string, string>

const HTML = { pictures: new Map(), at: new Date('2027-02-03T10:00:00Z'), name: 'report.html' }

const READERS: Readonly<Record<string, Reader>> = {
  json: ({ report }) => {
    const read: Report = JSON.parse(json(report))
    return new Map(read.files.map(({ file, verdict }) => [file, verdict]))
  },
  csv: ({ report }) => {
    const rows: Record<string, string>[] = parse(csv(report), { columns: true, bom: true })
    return new Map(rows.map(({ file = '', 'file verdict': verdict = '' }) => [file, verdict]))
  },
  junit: ({ report }) => {
    const suites = [...junit(report, HTML).matchAll(/<testsuite name="([^"]*)"(.*?)<\/testsuite>/gs)]
    return new Map(
      suites.map(([, name = '', rest = '']) => {
        const failures = Number(/failures="(\d+)"/.exec(rest)?.[1])
        const cases = rest.split('<testcase ').length - 1
        const skipped = Number(/skipped="(\d+)"/.exec(rest)?.[1])
        return [name, failures > 0 ? 'fail' : skipped === cases ? 'unsure' : 'not failing']
      }),
    )
  },
  page: ({ page }) => {
    const cards = [
      ...page.matchAll(/<article class="card".*?data-standing="(\w+)".*?<h3[^>]*>.*?<bdi>(.*?)<\/bdi>/gs),
    ]
    return new Map(
      cards.map(([, standing = '', file = '']) => [file, standing === 'warning' ? 'pass' : standing]),
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
  'who has what in Markdown': ({ report }) => byCell(report, markdown(report), /\s*\|\s*/),
}

/** Reads a person's row of a text, and what stands there for each file that is alone in its cell. */
function byCell(report: Report, text: string, between: RegExp): ReadonlyMap<string, string> {
  const { matrix } = report.delivery
  const lines = text.slice(text.indexOf('Who has what')).split('\n')
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

test('no output calls a file a pass that any rule fails or is unsure about', () => {
  const seen = { byDeliveryAlone: 0, passes: 0 }
  const told = new Map<string, number>()
  for (let run = 0; run < RUNS; run++) {
    const report = randomReport(run)
    const truth = truthOf(report)
    const text = table(report, { columns: 200, color: false })
    const rendered = { report, page: htmlReport(report, HTML).index, table: text }
    for (const [format, read] of Object.entries(READERS)) {
      const verdicts = read(rendered)
      expect(liesIn(verdicts, truth), `${format}, run ${run}`).toEqual([])
      const left = report.files.filter(({ file }) => !verdicts.has(file)).map(({ file }) => file)
      expect(WHOLE.includes(format) ? left : [], `${format}, run ${run}: left out`).toEqual([])
      told.set(
        format,
        (told.get(format) ?? 0) + [...truth.misses].filter((file) => verdicts.has(file)).length,
      )
    }
    const known = report.files.map(({ file }) => file)
    const failing = known.filter((file) => truth.fails.has(file)).length
    expect(report.totals.fail, `run ${run}`).toBe(failing)
    expect(report.totals.pass, `run ${run}`).toBeLessThanOrEqual(known.length - truth.misses.size)
    expect(text.trimEnd().split('\n').at(-1)).toContain(`${report.totals.pass} pass, ${failing} fail, `)
    expect(exitCode(report)).toBeGreaterThanOrEqual(Math.min(1, failing))
    expect(mildAnnotations(report, truth), `run ${run}`).toEqual([])
    const alone = report.files.filter(({ outcomes }) => outcomes.some(({ verdict }) => verdict === 'fail'))
    seen.byDeliveryAlone += failing - alone.length
    seen.passes += report.totals.pass
  }
  // The deliveries are of all kinds, and each reader finds what it looks for.
  for (const [format, misses] of told) expect(misses, format).toBeGreaterThan(1500)
  expect(seen.byDeliveryAlone).toBeGreaterThan(200)
  expect(seen.passes).toBeGreaterThan(500)
})

/** Formats that tell every file. */
const WHOLE = ['json', 'csv', 'junit', 'page']

/** Files that a format calls better than they are. */
function liesIn(verdicts: ReadonlyMap<string, string>, { fails, misses }: Truth): string[] {
  return [...verdicts].flatMap(([file, verdict]) => {
    const isLie = fails.has(file) ? !/^(fails?|double)$/i.test(verdict) : /^pass(es)?$/.test(verdict)
    return misses.has(file) && isLie ? [`${file}: ${verdict}`] : []
  })
}

/** Failing files that are annotated as less than errors, or not at all though there is room for all. */
function mildAnnotations(report: Report, { fails }: Truth): string[] {
  const commands = logCommands(
    annotations(report, { ofFile: (file) => file, ofPerson: () => null }).join('\n'),
  )
  const hasRoom = !commands.some(({ name }) => name === 'notice')
  return [...fails].filter((file) => {
    const own = commands.filter(({ properties }) => properties.file === file)
    return own.some(({ name }) => name !== 'error') || (hasRoom && own.length !== 1)
  })
}
