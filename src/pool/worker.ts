import { workerData } from 'node:worker_threads'
import { type EntriesPlace, openEntries } from '../cache/entries.ts'
import { FileMemory } from '../files/file-memory.ts'
import type { Source } from '../measure/file/read-file.ts'
import { measure } from '../measure/measure.ts'
import type { MeasurementGroup, Measurements } from '../measure/schema/measurements.ts'
import { collectAfter } from './garbage.ts'

/** What a worker is told when it starts. */
export interface WorkerData {
  /** Where measurements are kept; null to keep none. */
  readonly entries: EntriesPlace | null
}

/** Some files for a worker, measured one after the other. */
export interface Task {
  readonly sources: readonly Source[]
  readonly groups: readonly MeasurementGroup[]
}

const { entries } = workerData as WorkerData
const store = entries === null ? null : openEntries(entries)
const memory = new FileMemory()

/** @throws Error when the face models can't be loaded */
export default async function work({ sources, groups }: Task): Promise<Measurements[]> {
  const measured: Measurements[] = []
  for (const source of sources) {
    const measurements = await measure(source, groups, store, memory)
    collectAfter(measurements)
    measured.push(measurements)
  }
  return measured
}
