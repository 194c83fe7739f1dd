import { Command as Program } from 'commander'
import { EXIT, type Host } from '../checking/host.ts'
import { standardOf } from '../checking/standard.ts'
import { assembleReport } from '../judge/assemble.ts'
import { exitCode, type Report } from '../judge/report.ts'
import { PORTRAITS_PER_PAGE } from '../report/html/html.ts'
import { EXTENSIONS, FORMATS, refusePages } from './formats.ts'
import { Sinks } from './outputs.ts'
import { parse } from './parse.ts'
import { type Parts, readParts } from './read-parts.ts'
import { writeReport } from './write-report.ts'

/**
 * `merge [reports...]`: puts the JSON reports on all parts of a delivery together and judges it as a whole. Needs
 * neither the pictures nor the spec: the parts carry what they were judged by.
 */
export async function merge(args: readonly string[], host: Host): Promise<number> {
  const sinks = new Sinks(FORMATS, EXTENSIONS, 'table')
  const program = new Program('portrait-gate merge')
    .description('Puts the JSON reports of check --shard together and judges the delivery as a whole.')
    .argument('<reports...>', 'the JSON reports on all parts')
    .option('--format <format>', `${FORMATS.join(', ')}; may be given again`, (format: string) =>
      sinks.addFormat(format),
    )
    .option(
      '--output <file>',
      'write the format before it to a file instead of printing it',
      (file: string) => sinks.addOutput(file),
    )
  const parsed = parse(program, args, host)
  if ('exit' in parsed) return parsed.exit
  const outputs = sinks.finish()
  const at = new Date()
  const report = mergedReport(await readParts(parsed.paths, host), at, host)
  if (!report) return EXIT.trouble
  if (report.files.length > PORTRAITS_PER_PAGE) refusePages(outputs, report.files.length)
  await writeReport(report, outputs, { at, portraits: [] }, host)
  return exitCode(report)
}

/** The report on a whole delivery; on trouble with what its parts were judged by says so and gives null. */
export function mergedReport(parts: Parts, at: Date, host: Host): Report | null {
  const { tool, strict, left, files, sources } = parts
  const standard = standardOf(sources, host)
  const today = at.toISOString().slice(0, 10)
  return standard && assembleReport({ tool, strict, left, files, today }, standard)
}
