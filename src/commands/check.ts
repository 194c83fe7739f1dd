import { basename, extname } from 'node:path'
import { Command as Program } from 'commander'
import { readNames } from '../delivery/identify.ts'
import type { Found } from '../delivery/walk.ts'
import { measureAll } from '../measure/measure.ts'
import { csv } from '../report/csv.ts'
import { type HtmlOptions, htmlReport, PORTRAITS_PER_PAGE } from '../report/html/html.ts'
import { makePictures, type Pictures } from '../report/html/pictures.ts'
import { json } from '../report/json.ts'
import { judgeFile, requiredGroups } from '../report/judge.ts'
import { junit } from '../report/junit.ts'
import { markdown } from '../report/markdown.ts'
import { buildReport, exitCode, type Report } from '../report/report.ts'
import { table } from '../report/table.ts'
import { RULES } from '../rules/index.ts'
import type { Spec } from '../spec/spec.ts'
import { VERSION } from '../version.ts'
import { findPictures } from './find-pictures.ts'
import { EXIT, type Host } from './host.ts'
import { DEFAULT_SPEC, loadSpecFile } from './load-spec-file.ts'
import { type Layout, type Rendered, type Sink, Sinks, UsageError, writeSinks } from './outputs.ts'
import { parse } from './parse.ts'
import { progressLine } from './progress.ts'

const FORMATS = ['table', 'json', 'markdown', 'html', 'junit', 'csv'] as const
type Format = (typeof FORMATS)[number]
const EXTENSIONS: Readonly<Record<string, Format>> = {
  '.txt': 'table',
  '.json': 'json',
  '.md': 'markdown',
  '.html': 'html',
  '.xml': 'junit',
  '.csv': 'csv',
}

interface Options {
  readonly spec: string
  readonly strict: boolean
}

/** `check [paths...]`: measures and judges every portrait of a delivery. */
export async function check(args: readonly string[], host: Host): Promise<number> {
  const sinks = new Sinks(FORMATS, EXTENSIONS, 'table')
  const program = new Program('portrait-gate check')
    .description('Measures every portrait and judges it by the brand spec.')
    .argument('[paths...]', 'folders and files of the delivery', ['.'])
    .option('--spec <file>', 'the brand spec', DEFAULT_SPEC)
    .option('--format <format>', `${FORMATS.join(', ')}; may be given again`, (format: string) =>
      sinks.addFormat(format),
    )
    .option(
      '--output <file>',
      'write the format before it to a file instead of printing it',
      (file: string) => sinks.addOutput(file),
    )
    .option('--strict', 'fail also when a portrait needs a look', false)
  const parsed = parse<Options>(program, args, host)
  if ('exit' in parsed) return parsed.exit
  const outputs = sinks.finish()
  const spec = await loadSpecFile(parsed.options.spec, host)
  if (!spec) return EXIT.trouble
  const found = await findPictures(parsed.paths, host)
  if (!found) return EXIT.trouble
  if (found.files.length > PORTRAITS_PER_PAGE) refusePages(outputs, found.files.length)
  const at = new Date()
  const report = await judge(found, spec, parsed.options.strict, host)
  const html = outputs.some(({ format }) => format === 'html')
  const pictures: Pictures = html ? await makePictures(report, found.files, host.signal) : new Map()
  await writeSinks(
    outputs,
    (format, layout, file) => {
      const name = file === null ? 'report' : basename(file, extname(file))
      return formatted(report, format, layout, { pictures, at, name })
    },
    host,
  )
  return exitCode(report)
}

async function judge(found: Found, spec: Spec, strict: boolean, host: Host): Promise<Report> {
  const names = readNames(found.files, spec.naming, Object.keys(spec.deliverables))
  const progress = progressLine(host)
  const measured = await measureAll(found.files, requiredGroups(spec, RULES), host.signal, progress.show)
  progress.clear()
  const files = measured.map((measurements, i) => {
    const name = names[i]
    if (!name) throw new Error(`No name was read for ${measurements.file}.`)
    return {
      name,
      measured: measurements,
      outcomes: judgeFile({ measured: measurements, name }, spec, RULES),
    }
  })
  return buildReport({
    tool: { name: 'portrait-gate', version: VERSION },
    spec,
    strict,
    left: found.left,
    files,
  })
}

/** Several pages can't be printed one after the other. Said before the portraits are measured. */
function refusePages(outputs: readonly Sink<Format>[], portraits: number): void {
  if (!outputs.some(({ format, file }) => format === 'html' && file === null)) return
  throw new UsageError(
    `The HTML report on ${portraits} portraits has several pages (${PORTRAITS_PER_PAGE} portraits each); give it an --output FILE.`,
  )
}

function formatted(report: Report, format: Format, layout: Layout, options: HtmlOptions): Rendered {
  switch (format) {
    case 'json':
      return json(report)
    case 'markdown':
      return markdown(report)
    case 'table':
      return table(report, layout)
    case 'junit':
      return junit(report, options)
    case 'csv':
      return csv(report)
    case 'html': {
      const { index, pages } = htmlReport(report, options)
      return { text: index, beside: pages }
    }
  }
}
