import { basename } from 'node:path'
import { Command as Program } from 'commander'
import { assembleReport } from '../judge/assemble.ts'
import { exitCode } from '../judge/report.ts'
import { PORTRAITS_PER_PAGE } from '../report/html/html.ts'
import { EXTENSIONS, FORMATS, formatted, refusePages } from './formats.ts'
import { EXIT, type Host } from './host.ts'
import { Sinks, writeSinks } from './outputs.ts'
import { parse } from './parse.ts'
import { readParts } from './read-parts.ts'
import { standardOf } from './standard.ts'

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
  const parts = await readParts(parsed.paths, host)
  const standard = standardOf(parts.sources, host)
  if (!standard) return EXIT.trouble
  if (parts.files.length > PORTRAITS_PER_PAGE) refusePages(outputs, parts.files.length)
  const at = new Date()
  const { tool, strict, left, files } = parts
  const report = assembleReport({ tool, strict, left, files, today: at.toISOString().slice(0, 10) }, standard)
  await writeSinks(
    outputs,
    (format, layout, file) => {
      const name = file === null ? 'report.html' : basename(file)
      return formatted(report, format, layout, { pictures: new Map(), at, name })
    },
    host,
  )
  return exitCode(report)
}
