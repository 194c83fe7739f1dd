import { mkdir, readdir, readFile } from 'node:fs/promises'
import { basename, dirname, join, resolve } from 'node:path'
import { DEFAULT_SPEC } from '../checking/default-spec.ts'
import { readHead } from '../files/read-at-most.ts'
import { writeWhole } from '../files/write-whole.ts'
import { byCodePoint } from '../text/code-points.ts'

/** A folder in which the house style may lie. */
export interface StyleFolder {
  /** Absolute. */
  readonly folder: string
  /** The folder above; null for the root of a disk. */
  readonly above: string | null
  /** Names of the folders in it, hidden ones left out. */
  readonly folders: readonly string[]
  /** Names of the files in it that look like a brand spec. */
  readonly specs: readonly string[]
}

/** What every spec has at the beginning of a line, unless it extends one that has. */
const SPEC_KEY = /^(?:brand|extends)[ \t]*:/m
/** How much of a file is looked through for it, in bytes. @choice the longest that a spec may be */
const HEAD = 128 * 1024
/** Most folders, and most specs, that are listed. @choice nobody looks through more; no source */
const MOST = 200

/** What lies in a folder; nothing when it can't be read. @param folder absolute */
export async function lookInto(folder: string): Promise<StyleFolder> {
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => [])
  const seen = entries.filter(({ name }) => !name.startsWith('.'))
  const sorted = seen.map(({ name }) => name).sort(byCodePoint)
  const kinds = new Map(seen.map((entry) => [entry.name, entry]))
  const folders = sorted.filter((name) => kinds.get(name)?.isDirectory()).slice(0, MOST)
  const texts = sorted.filter((name) => kinds.get(name)?.isFile() && /\.ya?ml$/i.test(name)).slice(0, MOST)
  const specs = texts.filter((name) => SPEC_KEY.test(readHead(join(folder, name), HEAD)?.toString() ?? ''))
  const above = dirname(folder)
  return { folder, above: above === folder ? null : above, folders, specs }
}

/** The file in the user's own folder that tells which spec was used last. */
const LAST = 'desk.json'

/** Path of the spec that was used last; null when nobody knows. */
async function lastStyle(userCache: string | null): Promise<string | null> {
  if (userCache === null) return null
  try {
    const kept: unknown = JSON.parse(await readFile(join(userCache, LAST), 'utf8'))
    const spec: unknown = typeof kept === 'object' && kept !== null ? Reflect.get(kept, 'spec') : null
    return typeof spec === 'string' ? resolve(userCache, spec) : null
  } catch {
    return null
  }
}

/** Keeps it for the next time, where that is possible. */
export async function rememberStyle(
  spec: string,
  userCache: string | null,
  signal: AbortSignal,
): Promise<void> {
  if (userCache === null) return
  const text = `${JSON.stringify({ spec })}\n`
  try {
    await mkdir(userCache, { recursive: true, mode: 0o700 })
    await writeWhole(LAST, text, { cwd: userCache, signal })
  } catch {
    // Next time it is to be chosen again, that is all.
  }
}

/** Path of the spec to begin with: the usual one of the folder that the desk was opened in, else the last one; null for none. */
export async function firstStyle(cwd: string, userCache: string | null): Promise<string | null> {
  if ((await lookInto(cwd)).specs.includes(DEFAULT_SPEC)) return join(cwd, DEFAULT_SPEC)
  const last = await lastStyle(userCache)
  return last !== null && (await lookInto(dirname(last))).specs.includes(basename(last)) ? last : null
}
