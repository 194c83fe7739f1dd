import { join } from 'node:path'
import { Command as Program } from 'commander'
import { schemaText } from '../brand-spec/schema.ts'
import { SCHEMA_FILE, STARTER_SPEC } from '../brand-spec/starter.ts'
import { DEFAULT_SPEC } from '../checking/default-spec.ts'
import { EXIT, type Host } from '../checking/host.ts'
import { UsageError } from '../checking/usage-error.ts'
import { forTerminal } from '../report/safe.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import { parse } from './parse.ts'
import { writeNew } from './write-new.ts'

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
  const files = Object.entries(texts).map(([name, text]) => ({ file: join(folder, name), text }))
  await writeNew(files, parsed.options.force ?? false, host)
  tell(folder, host)
  return EXIT.fine
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
