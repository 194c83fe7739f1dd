import { setImmediate } from 'node:timers/promises'
import type { Entries } from '../cache/entries.ts'
import type { FileIndex } from '../cache/file-index.ts'
import type { Source } from '../measure/file/read-file.ts'
import type { MeasurementGroup, Measurements } from '../measure/schema/measurements.ts'
import { EntryReader } from './entry-reader.ts'
import { takeTurns } from './turns.ts'

/** Measurements of earlier runs. */
export interface Cache {
  readonly entries: Entries
  /** Content of files by size, time and inode; null when each is to be read and hashed anew. */
  readonly index: FileIndex | null
}

/** Files that are worth another thread, which takes as long to start as looking up so many. */
const WORTH_A_THREAD = 500
/** Files that are looked up before anything else gets its turn, such as a signal. */
const PORTION = 32
/** Portions asked of the other thread at a time, so that it never waits for this one, nor runs far ahead. */
const AHEAD = 4

/**
 * Another thread for {@link lookUp}; whoever starts it closes it. Null where it isn't worth its start, there is nothing to look up, or the
 * system starts no more threads.
 * @param threads how many there may be, this one included
 */
export function startReader(cache: Cache | null, threads: number, files: number): EntryReader | null {
  if (!cache?.index || threads < 2 || files < WORTH_A_THREAD) return null
  try {
    return new EntryReader({ entries: cache.entries.place, index: cache.index.folder })
  } catch {
    return null
  }
}

/**
 * Looks files up that may be as they were, and tells what is known of each.
 * @param reader opens the entries while this thread takes them and judges; null where this thread opens them
 * @throws the signal's reason when it is aborted
 */
export async function lookUp(
  sources: readonly Source[],
  groups: readonly MeasurementGroup[],
  { entries, index }: Cache,
  reader: EntryReader | null,
  signal: AbortSignal,
  told: (known: Measurements) => void,
): Promise<void> {
  const left: Source[] = []
  const there = async (portion: readonly Source[], by: EntryReader) => {
    const texts = await by.texts(portion, groups)
    for (const [i, source] of portion.entries()) {
      const text = texts[i]
      const known = text ? entries.taken(text, groups, source) : null
      if (known) told(known)
      else left.push(source)
    }
  }
  if (reader) await takeTurns(portioned(sources), AHEAD, signal, (portion) => there(portion, reader))
  await takeTurns(portioned(reader ? left : sources), 1, signal, async (portion) => {
    for (const source of portion) {
      const sha256 = await index?.look(source.path, source.isFrame)
      const known = sha256 && (await entries.find(sha256, groups, source))
      if (known) told(known)
    }
    await setImmediate()
  })
}

function portioned(sources: readonly Source[]): Source[][] {
  return Array.from({ length: Math.ceil(sources.length / PORTION) }, (_, i) =>
    sources.slice(PORTION * i, PORTION * (i + 1)),
  )
}
