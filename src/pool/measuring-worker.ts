import { workerData } from 'node:worker_threads'
import { type EntriesPlace, openEntries } from '../cache/entries.ts'
import { FileMemory } from '../files/file-memory.ts'
import { searchedMemory } from '../kernels/markers.ts'
import { recycling } from '../kernels/recycling.ts'
import { TooMuchAtOnce } from '../measure/file/decode-memory.ts'
import type { Source } from '../measure/file/read-file.ts'
import { loadAhead, measure } from '../measure/measure.ts'
import { isDecoded } from '../measure/schema/groups.ts'
import type { MeasurementGroup, Measurements } from '../measure/schema/measurements.ts'
import { Garbage } from './garbage.ts'

/** What a worker is told when it starts. */
export interface WorkerData {
  /** Whether there is nothing to measure yet, and time to load what looks at pixels. */
  loadsAhead: boolean
}

/** Some files for a worker, measured one after the other. */
export interface Task {
  readonly sources: readonly Source[]
  readonly groups: readonly MeasurementGroup[]
  /** Memory that decoding one of them may take, in bytes. */
  readonly share: number
  /** Where measurements are kept; null to keep none. */
  readonly entries: EntriesPlace | null
}

/** A picture that was left because decoding it takes more than its share. */
export interface Postponed {
  /** What decoding it takes at most, in bytes. */
  readonly postponed: number
}

const memory = new FileMemory(searchedMemory)
const garbage = new Garbage()

/** What the pool calls, once all is loaded that should be. */
export default ready()

async function ready(): Promise<typeof work> {
  // What fails is told when it is needed.
  if ((workerData as WorkerData).loadsAhead) await loadAhead().catch(() => undefined)
  return work
}

/** @throws Error when the face models can't be loaded */
async function work({ sources, groups, share, entries }: Task): Promise<(Measurements | Postponed)[]> {
  const store = entries === null ? null : openEntries(entries)
  const measured: (Measurements | Postponed)[] = []
  for (const source of sources) {
    try {
      // What was measured is plain JSON: nothing of the picture lives on.
      const measurements = await recycling(() => measure(source, groups, { store, memory, share }))
      measured.push(measurements)
      if (isDecoded(groups)) await garbage.lookAfter()
    } catch (error) {
      if (!(error instanceof TooMuchAtOnce)) throw error
      measured.push({ postponed: error.bytes })
    }
  }
  return measured
}
