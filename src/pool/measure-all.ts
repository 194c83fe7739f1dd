import type { Entries } from '../cache/entries.ts'
import type { FileIndex } from '../cache/file-index.ts'
import { completed } from '../measure/groups.ts'
import type { MeasurementGroup, Measurements } from '../measure/measurements.ts'
import type { Source } from '../measure/read-file.ts'
import { Workers } from './workers.ts'

export interface Progress {
  readonly done: number
  readonly total: number
}

/** Measurements of earlier runs. */
export interface Cache {
  readonly entries: Entries
  /** Content of files by size, time and inode; null when each is to be read and hashed anew. */
  readonly index: FileIndex | null
}

export interface Means {
  readonly signal: AbortSignal
  readonly progress: (progress: Progress) => void
  /** Worker threads; 0 measures in this one, without limits of time and memory. */
  readonly workers: number
  readonly cache: Cache | null
}

/**
 * Measures many files; the results stand in the order of the files. What the cache knows is not measured anew.
 * @throws the signal's reason when it is aborted; Error when the face models can't be loaded
 */
export async function measureAll(
  sources: readonly Source[],
  asked: readonly MeasurementGroup[],
  { signal, progress, workers: threads, cache }: Means,
): Promise<Measurements[]> {
  const groups = completed(asked)
  const results = new Map<Source, Measurements>()
  const total = sources.length
  const keep = (source: Source, measurements: Measurements) => {
    results.set(source, measurements)
    progress({ done: results.size, total })
  }
  const { index = null, entries = null } = cache ?? {}
  const unknown: Source[] = []
  await inParallel(sources, LOOKUPS, signal, async (source) => {
    const sha256 = index && (await index.look(source.path))
    const known = sha256 && (await entries?.find(sha256, groups, source.file))
    if (known) keep(source, known)
    else unknown.push(source)
  })
  if (unknown.length > 0) {
    const order = new Map(sources.map((source, i) => [source, i]))
    unknown.sort((a, b) => (order.get(a) ?? 0) - (order.get(b) ?? 0))
    const used = Math.min(threads, unknown.length)
    const workers = used > 0 ? new Workers(used, entries?.place ?? null) : null
    try {
      await inParallel(unknown, Math.max(1, used), signal, async (source) => {
        const measured = workers
          ? await workers.measure(source, groups, signal)
          : await (await import('../measure/measure.ts')).measure(source, groups, entries)
        index?.learn(source.path, measured.sha256)
        keep(source, measured)
      })
    } finally {
      await workers?.close()
    }
  }
  await index?.save()
  return sources.map((source) => results.get(source) as Measurements)
}

// Files are looked up in the library's four threads; more in flight only wait.
const LOOKUPS = 16

async function inParallel<T>(
  items: readonly T[],
  atOnce: number,
  signal: AbortSignal,
  work: (item: T) => Promise<void>,
): Promise<void> {
  let next = 0
  const run = async () => {
    while (next < items.length) {
      signal.throwIfAborted()
      await work(items[next++] as T)
    }
  }
  await Promise.all(Array.from({ length: Math.min(atOnce, items.length) }, run))
  signal.throwIfAborted()
}
