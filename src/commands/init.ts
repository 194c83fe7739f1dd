import { mkdir, readFile, writeFile } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { Command as Program } from 'commander'
import { schemaText } from '../brand-spec/schema.ts'
import { SCHEMA_FILE, STARTER_SPEC } from '../brand-spec/starter.ts'
import { EXIT, type Host } from '../checking/host.ts'
import { DEFAULT_SPEC } from '../checking/load-spec-file.ts'
import { UsageError } from '../checking/usage-error.ts'
import { writeWhole } from '../files/write-whole.ts'
import { forTerminal } from '../report/safe.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import { parse } from './parse.ts'

/**
 * `init [folder]`: writes a first brand spec, and beside it the schema by which editors complete and explain it. What
 * is there already is kept, unless with --force.
 * @throws UsageError when something else is there, or a file can't be written
 */
export async function init(args: readonly string[], host: Host): Promise<number> {
  const program = new Program('portrait-gate init')
    .description(`Writes a starter brand spec, ${DEFAULT_SPEC}, and its schema, ${SCHEMA_FILE}, for editors.`)
    .argument('[folder...]', 'where to write them', ['.'])
    .option('--force', 'overwrite existing files')
  const parsed = parse<{ readonly force?: true }>(program, args, host)
  if ('exit' in parsed) return parsed.exit
  const [folder = '.', ...more] = parsed.paths
  if (more.length > 0) throw new UsageError('init takes one folder; run it once for each.')

  const texts = { [DEFAULT_SPEC]: STARTER_SPEC, [SCHEMA_FILE]: schemaText(ALL_RULES) }
  const files = await Promise.all(
    Object.entries(texts).map(async ([name, text]) => {
      const file = join(folder, name)
      return { file, text, there: await isThere(resolve(host.cwd, file), text) }
    }),
  )
  const others = files.filter(({ there }) => there === 'other').map(({ file }) => file)
  if (others.length > 0 && !parsed.options.force) {
    const are = others.length === 1 ? 'already exists' : 'already exist'
    throw new UsageError(
      `${others.join(' and ')} ${are}; nothing was written. Name another folder, or overwrite with --force.`,
    )
  }
  for (const { file, text, there } of files) {
    if (there !== 'same') await write(file, text, there === 'none', host)
  }
  tell(folder, host)
  return EXIT.fine
}

async function isThere(path: string, text: string): Promise<'none' | 'same' | 'other'> {
  try {
    return (await readFile(path, 'utf8')) === text ? 'same' : 'other'
  } catch (error) {
    const missing = error instanceof Error && 'code' in error && error.code === 'ENOENT'
    return missing ? 'none' : 'other'
  }
}

async function write(file: string, text: string, isNew: boolean, host: Host): Promise<void> {
  const path = resolve(host.cwd, file)
  try {
    await mkdir(resolve(path, '..'), { recursive: true })
    // A file that came to be in the meantime, or a link to nowhere, is not written over either.
    if (isNew) await writeFile(path, text, { flag: 'wx', signal: host.signal })
    else await writeWhole(file, text, host)
  } catch (error) {
    host.signal.throwIfAborted()
    const why = error instanceof Error && 'code' in error ? error.code : error
    throw new UsageError(`${file} could not be written (${why}). Name a folder that you may write to.`)
  }
}

function tell(folder: string, host: Host): void {
  const spec = join(folder, DEFAULT_SPEC)
  const option = spec === DEFAULT_SPEC ? '' : ` --spec ${spec}`
  const lines = [
    `${spec} is a brand spec to start from: read it and adapt it to what you have agreed on.`,
    `${join(folder, SCHEMA_FILE)} lets editors complete and explain the spec; keep the two together.`,
    `Then check a delivery: portrait-gate check${option} FOLDER`,
  ]
  for (const line of lines) host.stdout.write(`${forTerminal(line)}\n`)
}
