import { mkdir, readdir, rename, rm, rmdir } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { replaceWhole } from '../files/replace-whole.ts'
import { forTerminal } from '../report/safe.ts'
import { byCodePoint } from '../text/code-points.ts'
import { writeLedger } from './ledger/ledger-file.ts'
import type { Places } from './ledger/places.ts'
import type { Prepared, PreparedFile } from './ledger/prepared.ts'

/** Why files are held back, beside them. */
const REASONS = 'reasons.txt'

/** A file that is ready: where it lies now, absolute, and what is recorded of it. */
export interface Ready {
  readonly at: string
  readonly entry: PreparedFile
}

export function placeOf({ file, state }: PreparedFile, { output, heldBack }: Places): string {
  return join(state === 'delivered' ? output : heldBack, file)
}

/**
 * Gives every file its place. What will be there is recorded first, so that a run that is stopped in between leaves nothing that
 * the next one takes for a stranger's.
 * @throws Error when something can't be written
 */
export async function publish(ready: readonly Ready[], prepared: Prepared, places: Places): Promise<void> {
  await writeLedger(places.ledger, prepared)
  for (const { at, entry } of ready) {
    const place = placeOf(entry, places)
    if (at !== place) {
      await mkdir(dirname(place), { recursive: true })
      await rename(at, place)
    }
    // It stands in one of the two folders, never in both.
    const other = entry.state === 'delivered' ? 'held-back' : 'delivered'
    const elsewhere = placeOf({ ...entry, state: other }, places)
    if (at !== elsewhere) await removeOurs(elsewhere, entry, prepared)
  }
  await writeReasons(prepared.files, places)
}

async function removeOurs(path: string, { file }: PreparedFile, { files }: Prepared): Promise<void> {
  if (files.some((one) => one.file === file)) await rm(path, { force: true })
}

async function writeReasons(files: readonly PreparedFile[], { heldBack }: Places): Promise<void> {
  const held = files.filter(({ state }) => state === 'held-back')
  if (held.length === 0) {
    await rm(join(heldBack, REASONS), { force: true })
    await removeEmpty(heldBack)
    return
  }
  const texts = held
    .toSorted((a, b) => byCodePoint(a.file, b.file))
    .map(({ file, reasons }) =>
      [file, ...reasons.map((reason) => `  ${reason}`)].map((line) => `${forTerminal(line)}\n`).join(''),
    )
  await mkdir(heldBack, { recursive: true })
  await replaceWhole(join(heldBack, REASONS), texts.join('\n'), { flush: true })
}

/** Removes folders that hold nothing; one that holds something stays. */
async function removeEmpty(folder: string): Promise<void> {
  const inside = await readdir(folder, { withFileTypes: true }).catch(() => [])
  for (const one of inside) if (one.isDirectory()) await removeEmpty(join(folder, one.name))
  await rmdir(folder).catch(() => {})
}
