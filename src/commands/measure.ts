import { Command as Program } from 'commander'
import { findPictures } from '../checking/find-pictures.ts'
import { EXIT, type Host } from '../checking/host.ts'
import { type MeasuringOptions, meansOf } from '../checking/means.ts'
import { progressLine } from '../checking/progress.ts'
import { GROUPS } from '../measure/schema/measurements.ts'
import { measureAll } from '../pool/measure-all.ts'
import { measurementsCsv } from '../report/measurements-csv.ts'
import { measurementsTable } from '../report/measurements-table.ts'
import { forJson } from '../report/safe.ts'
import { withMeasuring } from './measuring.ts'
import { Sinks, writeSinks } from './outputs.ts'
import { parse } from './parse.ts'

const FORMATS = ['json', 'table', 'csv'] as const
type Format = (typeof FORMATS)[number]
const EXTENSIONS: Readonly<Record<string, Format>> = { '.json': 'json', '.txt': 'table', '.csv': 'csv' }

// A signature is made from a face; it is of use only within a run.
const PRINTED = GROUPS.filter((group) => group !== 'signature')

/** `measure [paths...]`: prints what is measured, without a spec. */
export async function measure(args: readonly string[], host: Host): Promise<number> {
  const sinks = new Sinks(FORMATS, EXTENSIONS, 'json')
  const program = new Program('portrait-gate measure')
    .description(
      'Measures every portrait and prints the measurements: a JSON array with one object per file.',
    )
    .argument('[paths...]', 'folders and files', ['.'])
    .option('--format <format>', `${FORMATS.join(', ')}`, (format: string) => sinks.addFormat(format))
    .option(
      '--output <file>',
      'write the preceding format to a file instead of printing it',
      (file: string) => sinks.addOutput(file),
    )
  const parsed = parse<MeasuringOptions>(withMeasuring(program), args, host)
  if ('exit' in parsed) return parsed.exit
  const outputs = sinks.finish()
  const found = await findPictures(parsed.paths, host)
  if (!found) return EXIT.trouble
  const progress = progressLine(host)
  const means = await meansOf(parsed.options, host, progress.show)
  const measurements = await measureAll(found.files, PRINTED, means)
  progress.clear()
  await writeSinks(
    outputs,
    (format, { columns }) => {
      switch (format) {
        case 'json':
          return `${forJson(JSON.stringify(measurements, null, 2))}\n`
        case 'table':
          return measurementsTable(measurements, columns)
        case 'csv':
          return measurementsCsv(measurements)
      }
    },
    host,
  )
  return measurements.some(({ fault }) => fault !== null) ? EXIT.fails : EXIT.fine
}
