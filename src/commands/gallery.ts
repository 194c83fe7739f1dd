import { Command as Program } from 'commander'
import { EXIT, type Host } from '../checking/host.ts'
import { DEFAULT_SPEC, readSpecTexts, validSpec } from '../checking/load-spec-file.ts'
import type { MeasuringOptions } from '../checking/means.ts'
import { measureGallery } from '../checking/measure-gallery.ts'
import { UsageError } from '../checking/usage-error.ts'
import { writeWhole } from '../files/write-whole.ts'
import { forTerminal } from '../report/safe.ts'
import { withMeasuring } from './measuring.ts'
import { parse } from './parse.ts'

interface Options extends MeasuringOptions {
  readonly spec: string
  readonly output?: string
}

/**
 * `gallery [paths...]`: measures portraits that are published and saves what a new set is compared with, numbers only.
 * @throws UsageError when the file can't be written
 */
export async function gallery(args: readonly string[], host: Host): Promise<number> {
  const program = new Program('portrait-gate gallery')
    .description(
      'Measures published portraits and saves the numbers that check --gallery compares new ones with. The file holds no names and no pictures.',
    )
    .argument('[paths...]', 'folders and files of the published portraits', ['.'])
    .option('--spec <file>', 'the brand spec, for the names and the deliverables', DEFAULT_SPEC)
    .option('--output <file>', 'write to a file instead of printing')
  const parsed = parse<Options>(withMeasuring(program), args, host)
  if ('exit' in parsed) return parsed.exit
  const { spec: specFile, output } = parsed.options
  const texts = await readSpecTexts(specFile, host)
  const spec = texts && validSpec(texts, host)
  if (!spec) return EXIT.trouble
  const made = await measureGallery(parsed.paths, spec, parsed.options, host)
  if (!made) return EXIT.trouble
  for (const file of made.unread)
    host.stderr.write(`${forTerminal(`${file} could not be read and was left out.`)}\n`)
  if (output === undefined) host.stdout.write(made.text)
  else await save(output, made.text, host)
  return made.unread.length > 0 ? EXIT.fails : EXIT.fine
}

async function save(file: string, text: string, host: Host): Promise<void> {
  try {
    await writeWhole(file, text, host)
  } catch (error) {
    host.signal.throwIfAborted()
    const why = error instanceof Error ? error.message : error
    throw new UsageError(
      `${file} could not be written (${why}). Name a file in a folder that you may write to.`,
    )
  }
}
