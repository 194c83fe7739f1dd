import type { Source } from '../measure/file/read-file.ts'
import { completed, restricted } from '../measure/schema/groups.ts'
import type { MeasurementGroup, Measurements } from '../measure/schema/measurements.ts'
import { unfollowed } from '../measure/schema/unmeasured.ts'
import type { Early } from './early.ts'
import type { EntryReader } from './entry-reader.ts'
import { collectAsUsual, collectNow, collectSeldom } from './garbage.ts'
import { type Cache, lookUp, startReader } from './look-up.ts'
import { atOnce, budgetOf, SHARE } from './memory-budget.ts'
import { takeTurns } from './turns.ts'
import { Workers } from './workers.ts'

export interface Progress {
  readonly done: number
  readonly total: number
}

export interface Means {
  readonly signal: AbortSignal
  readonly progress: (progress: Progress) => void
  /** Worker threads; 0 measures in this one, without limits of time and memory. */
  readonly workers: number
  /** Workers that may have been started already. */
  readonly early?: Early | undefined
  /** Reads ahead what is looked up; started here, where it is worth it, unless told. */
  readonly reader?: EntryReader | null
  readonly cache: Cache | null
  /** Memory that decoding may take in all workers together, in bytes; by their number by default. */
  readonly budget?: number
}

/**
 * Measures many files; the results stand in the order of the files. What the cache knows is not measured anew.
 * @param told called with what was measured of each file, as soon as it is known, and whether the cache knew it, so that no worker waits meanwhile
 * @throws the signal's reason when it is aborted; Error when the face models can't be loaded
 */
export async function measureAll(
  sources: readonly Source[],
  asked: readonly MeasurementGroup[],
  means: Means,
  told: (measurements: Measurements, isKept: boolean) => void = () => {},
): Promise<Measurements[]> {
  const { cache, signal } = means
  const given = completed(asked)
  // What is kept is known by its content.
  const groups = cache ? completed(['checksum', ...asked]) : given
  const results = new Map<string, Measurements>()
  const keep = (measurements: Measurements, isKept = false) => {
    const isAsAsked = isKept || groups.length === given.length
    const asked = isAsAsked ? measurements : withoutChecksum(measurements, given)
    results.set(asked.file, asked)
    told(asked, isKept)
    means.progress({ done: results.size, total: sources.length })
  }
  for (const { file, astray } of sources) if (astray !== undefined) keep(unfollowed(file, astray))
  const followed = sources.filter(({ file }) => !results.has(file))
  if (cache?.index) {
    const { reader = startReader(cache, means.workers, followed.length) } = means
    try {
      await lookUp(followed, given, cache, reader, signal, (one) => keep(one, true))
    } finally {
      reader?.close()
    }
  }
  const unknown = sources.filter(({ file }) => !results.has(file))
  await measureUnknown(unknown, groups, means, (source, measurements) => {
    cache?.index?.learn(source.path, measurements.sha256, source.isFrame)
    keep(measurements)
  })
  await cache?.index?.save()
  return sources.flatMap(({ file }) => results.get(file) ?? [])
}

/** What was measured with a checksum that nobody asked for. */
function withoutChecksum(measurements: Measurements, groups: readonly MeasurementGroup[]): Measurements {
  return measurements.sha256 === null ? restricted(measurements, groups) : { ...measurements, sha256: null }
}

async function measureUnknown(
  sources: readonly Source[],
  groups: readonly MeasurementGroup[],
  { signal, workers: threads, early, cache, budget: given }: Means,
  keep: (source: Source, measurements: Measurements) => void,
): Promise<void> {
  const entries = cache?.entries ?? null
  const used = Math.min(threads, sources.length)
  if (used === 0) {
    // Loaded only here: where workers measure, this thread needs neither decoder nor models.
    const { measure } = await import('../measure/measure.ts')
    const one = async (source: Source) => keep(source, await measure(source, groups, { store: entries }))
    return takeTurns(sources, 1, signal, one)
  }
  const budget = given ?? budgetOf(used)
  const large: Large[] = []
  const work = async (portioned: readonly Source[][], threads: number, workers: Workers, share: number) => {
    const measuring = { signal, share, entries: entries?.place ?? null }
    try {
      await takeTurns(portioned, threads, signal, async (portion) => {
        const measured = await workers.measure(portion, groups, measuring)
        for (const [i, source] of portion.entries()) {
          const one = measured[i] as (typeof measured)[number]
          if ('postponed' in one) large.push({ source, bytes: one.postponed })
          else keep(source, one)
        }
      })
    } finally {
      await workers.close()
    }
  }
  collectNow()
  collectSeldom()
  try {
    const workers = early?.take() ?? new Workers(used)
    await work(portions(sources, used), used, workers, Math.min(SHARE, budget / used))
  } finally {
    collectAsUsual()
  }
  if (large.length === 0) return
  // By fresh workers, and garbage collected as usual: what waits to be given back would come on top.
  const largest = Math.max(...large.map(({ bytes }) => bytes))
  const alone = large.map(({ source }) => [source])
  const few = atOnce(budget, largest, Math.min(used, alone.length))
  await work(alone, few, new Workers(few), Infinity)
}

/** A picture that takes more memory to decode than its share of the budget. */
interface Large {
  readonly source: Source
  readonly bytes: number
}

const MOST_A_PORTION = 16
const TURNS = 8

/**
 * Divides files among workers: in portions, since handing over costs about as much as hashing a file, that get smaller,
 * so that all workers end together.
 */
export function portions(sources: readonly Source[], workers: number): Source[][] {
  const all: Source[][] = []
  for (let at = 0; at < sources.length; ) {
    const size = Math.ceil((sources.length - at) / (TURNS * workers))
    all.push(sources.slice(at, at + Math.min(size, MOST_A_PORTION)))
    at += Math.min(size, MOST_A_PORTION)
  }
  return all
}
