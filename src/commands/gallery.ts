import { resolve } from 'node:path'
import { Command as Program } from 'commander'
import { DEFAULT_SPEC } from '../checking/default-spec.ts'
import { EXIT, type Host } from '../checking/host.ts'
import { readSpecTexts, validSpec } from '../checking/load-spec-file.ts'
import type { MeasuringOptions } from '../checking/means.ts'
import { measureGallery } from '../checking/measure-gallery.ts'
import { save } from '../checking/save.ts'
import { UsageError } from '../checking/usage-error.ts'
import { readSourceText } from '../files/source-text.ts'
import { galleryText, readGallery, withoutPortraits } from '../gallery/gallery-file.ts'
import { forTerminal } from '../report/safe.ts'
import type { GalleryPortrait } from '../rules/contract/delivery-rule.ts'
import { withMeasuring } from './measuring.ts'
import { parse } from './parse.ts'

interface Options extends MeasuringOptions {
  readonly spec: string
  readonly output?: string
  readonly add?: string
  readonly remove?: string
}

/**
 * `gallery [paths...]`: measures portraits that are published and saves what a new set is compared with, numbers only; or
 * brings such a file up to date.
 * @throws UsageError when a file can't be read or written
 */
export async function gallery(args: readonly string[], host: Host): Promise<number> {
  const program = new Program('portrait-gate gallery')
    .description(
      'Measures published portraits and saves the numbers that check --gallery compares new ones with. The file holds no names and no pictures.',
    )
    .argument('[paths...]', 'folders and files of the published portraits', ['.'])
    .option('--spec <file>', 'the brand spec, for the names and the deliverables', DEFAULT_SPEC)
    .option('--add <gallery>', 'these portraits are new: add them to this gallery file')
    .option('--remove <gallery>', 'these portraits are taken down: remove them from this gallery file')
    .option('--output <file>', 'write to a file instead of printing, or instead of the file that is changed')
  const parsed = parse<Options>(withMeasuring(program), args, host)
  if ('exit' in parsed) return parsed.exit
  const { spec: specFile, add, remove } = parsed.options
  if (add !== undefined && remove !== undefined)
    throw new UsageError('Add portraits in one run and remove others in another: give --add or --remove.')
  const changed = add ?? remove
  const before = changed === undefined ? [] : await readBefore(changed, host)
  const texts = await readSpecTexts(specFile, host)
  const spec = texts && validSpec(texts, host)
  if (!spec) return EXIT.trouble
  const made = await measureGallery(parsed.paths, spec, parsed.options, host)
  if (!made) return EXIT.trouble
  const say = (sentence: string) => host.stderr.write(`${forTerminal(sentence)}\n`)
  for (const file of made.unread) say(`${file} could not be read and was left out.`)
  const { left, unknown } =
    remove === undefined
      ? { left: [...before, ...made.portraits], unknown: [] }
      : withoutPortraits(before, made.portraits)
  for (const index of unknown)
    say(
      `${made.files[index]} is not in ${remove}, at least not with these numbers; nothing was removed for it.`,
    )
  const output = parsed.options.output ?? changed
  if (output === undefined) host.stdout.write(galleryText(left))
  else await save(output, galleryText(left), host)
  return made.unread.length + unknown.length > 0 ? EXIT.fails : EXIT.fine
}

/** The portraits of a gallery file that is to be brought up to date. */
async function readBefore(file: string, { cwd }: Host): Promise<readonly GalleryPortrait[]> {
  const read = await readSourceText(resolve(cwd, file))
  if ('problem' in read) throw new UsageError(`The gallery file ${file} ${read.problem}`)
  const before = readGallery(read.text)
  if ('problem' in before) throw new UsageError(`${file}: ${before.problem}`)
  return before.portraits
}
