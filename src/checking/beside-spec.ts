import { realpath } from 'node:fs/promises'
import { dirname, isAbsolute, join, resolve } from 'node:path'
import type { NamedFile } from '../brand-spec/named-files.ts'
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
  /** From a spec, which may be a stranger's: a path that does not leave that spec's folder. */
  readonly setting: NamedFile | undefined
}

/**
 * Reads the roster or the waivers; null when neither the command line nor the spec names any.
 * @throws UsageError when the file can't be read, or the spec's path leads out of the spec's folder
 */
export async function readBesideSpec(
  { what, option, setting }: Named,
  host: Pick<Host, 'cwd'>,
): Promise<SourceText | null> {
  if (option !== undefined) return source(what, option, resolve(host.cwd, option))
  if (setting === undefined) return null
  const { path: written, by } = setting
  const folder = dirname(resolve(host.cwd, by))
  const path = resolve(folder, written)
  if (
    isAbsolute(written) ||
    written.includes('\\') ||
    !isInside(path, folder) ||
    !(await isReallyInside(path, folder))
  )
    throw new UsageError(
      `${by}: ${what} is "${written}", which leads out of the spec's folder; put the file beside the spec or below it, or name it with --${what} FILE.`,
    )
  return source(what, join(dirname(by), written), path)
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
