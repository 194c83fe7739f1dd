import { realpath } from 'node:fs/promises'
import { dirname, isAbsolute, join, resolve } from 'node:path'
import { isInside } from '../files/folders.ts'
import { readSourceText, type SourceText } from '../files/source-text.ts'
import type { Host } from './host.ts'
import { UsageError } from './usage-error.ts'

/** A file that the spec or the command line names. */
export interface Named {
  /** "roster": how sentences call it, and its key in the spec. */
  readonly what: 'roster' | 'waivers'
  /** From the command line: whatever file the user may read. */
  readonly option: string | undefined
  /** From the spec, which may be a stranger's: a path that does not leave the spec's folder. */
  readonly setting: string | undefined
}

/**
 * Reads the roster or the waivers; null when neither the command line nor the spec names any.
 * @throws UsageError when the file can't be read, or the spec's path leads out of the spec's folder
 */
export async function readBesideSpec(
  named: Named,
  specFile: string,
  host: Pick<Host, 'cwd'>,
): Promise<SourceText | null> {
  const { what, option, setting } = named
  if (option !== undefined) return source(what, option, resolve(host.cwd, option))
  if (setting === undefined) return null
  const folder = dirname(resolve(host.cwd, specFile))
  const path = resolve(folder, setting)
  if (
    isAbsolute(setting) ||
    setting.includes('\\') ||
    !isInside(path, folder) ||
    !(await isReallyInside(path, folder))
  )
    throw new UsageError(
      `${specFile}: ${what} is "${setting}", which leads out of the spec's folder; put the file beside the spec or below it, or name it with --${what} FILE.`,
    )
  return source(what, join(dirname(specFile), setting), path)
}

async function source(what: string, file: string, path: string): Promise<SourceText> {
  const read = await readSourceText(path)
  if ('problem' in read) throw new UsageError(`The ${what} file ${file} ${read.problem}`)
  return { file, text: read.text }
}

/** A link may lead out where the path does not. What is not there leads nowhere. */
async function isReallyInside(path: string, folder: string): Promise<boolean> {
  try {
    return isInside(await realpath(path), await realpath(folder))
  } catch {
    return true
  }
}
