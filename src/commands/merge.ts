import { Command as Program } from 'commander'
import { EXIT, type Host } from '../checking/host.ts'
import { standardOf } from '../checking/standard.ts'
import { assembleReport } from '../judge/assemble.ts'
import { exitCode, type Report } from '../judge/report.ts'
import type { Standard } from '../judge/standard.ts'
import { PORTRAITS_PER_PAGE } from '../report/html/per-page.ts'
import { ALL, EXTENSIONS, FORMATS, refusePages } from './formats.ts'
import { Sinks } from './outputs.ts'
import { parse } from './parse.ts'
import { type Parts, readParts } from './reading/read-parts.ts'
import { writeReport } from './write-report.ts'

/**
 * `merge [reports...]`: puts the JSON reports on all parts of a delivery together and judges it as a whole. Needs
 * neither the pictures nor the spec: the parts carry what they were judged by.
 */
export async function merge(args: readonly string[], host: Host): Promise<number> {
  const sinks = new Sinks(FORMATS, EXTENSIONS, 'table')
  const program = new Program('portrait-gate merge')
    .description('Combines the JSON reports of check --shard and judges the delivery as a whole.')
    .argument('<reports...>', 'the JSON reports on all parts')
    .option('--format <format>', `${FORMATS.join(', ')}; may be repeated`, (format: string) =>
      sinks.addFormat(format),
    )
    .option(
      '--output <file>',
      'write the preceding format to a file instead of printing it',
      (file: string) => sinks.addOutput(file),
    )
    .option('--all', ALL, false)
  const parsed = parse<{ readonly all: boolean }>(program, args, host)
  if ('exit' in parsed) return parsed.exit
  const outputs = sinks.finish()
  const at = new Date()
  const parts = await readParts(parsed.paths, host)
  const standard = standardOf(parts.sources, host)
  if (!standard) return EXIT.trouble
  const report = mergedReport(parts, standard, at)
  if (report.files.length > PORTRAITS_PER_PAGE) refusePages(outputs, report.files.length)
  await writeReport(report, outputs, { at, portraits: [], all: parsed.options.all }, host)
  return exitCode(report)
}

/** The report on a whole delivery. @param standard of what its parts were judged by */
export function mergedReport({ tool, strict, left, files }: Parts, standard: Standard, at: Date): Report {
  return assembleReport({ tool, strict, left, files, today: at.toISOString().slice(0, 10) }, standard)
}
