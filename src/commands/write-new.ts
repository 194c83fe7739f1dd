import { mkdir, readFile, writeFile } from 'node:fs/promises'
import { resolve } from 'node:path'
import type { Host } from '../checking/host.ts'
import { saving } from '../checking/save.ts'
import { UsageError } from '../checking/usage-error.ts'
import { writeWhole } from '../files/write-whole.ts'

/** A file to be written; its text is null while it is still to be made. */
export interface Planned<Text extends string | null = string | null> {
  readonly file: string
  readonly text: Text
}

/**
 * Nothing happens when none of the files is there, or only with the same text.
 * @throws UsageError when something else is there
 */
export async function refuseToOverwrite(files: readonly Planned[], host: Pick<Host, 'cwd'>): Promise<void> {
  const there = await Promise.all(files.map((one) => whatIsThere(one, host)))
  const others = files.filter((_, i) => there[i] === 'other').map(({ file }) => file)
  if (others.length === 0) return
  const exist = others.length === 1 ? 'already exists' : 'already exist'
  throw new UsageError(
    `${others.join(' and ')} ${exist}; nothing was written. Name another folder, or overwrite with --force.`,
  )
}

/**
 * Writes files that are not there yet, or all of them with `force`, and makes their folders.
 * @throws UsageError when something else is there, or a file can't be written
 */
export async function writeNew(files: readonly Planned<string>[], force: boolean, host: Host): Promise<void> {
  if (!force) await refuseToOverwrite(files, host)
  for (const one of files) {
    const there = await whatIsThere(one, host)
    if (there !== 'same') await write(one, there === 'none', host)
  }
}

async function whatIsThere(
  { file, text }: Planned,
  { cwd }: Pick<Host, 'cwd'>,
): Promise<'none' | 'same' | 'other'> {
  try {
    return (await readFile(resolve(cwd, file), 'utf8')) === text ? 'same' : 'other'
  } catch (error) {
    const missing = error instanceof Error && 'code' in error && error.code === 'ENOENT'
    return missing ? 'none' : 'other'
  }
}

async function write({ file, text }: Planned<string>, isNew: boolean, host: Host): Promise<void> {
  const path = resolve(host.cwd, file)
  await saving(file, host, async () => {
    await mkdir(resolve(path, '..'), { recursive: true })
    // A file that came to be in the meantime, or a link to nowhere, is not written over either.
    if (isNew) await writeFile(path, text, { flag: 'wx', signal: host.signal })
    else await writeWhole(file, text, host)
  })
}
