import type { Source } from '../measure/file/read-file.ts'
import type { MeasurementGroup, Measurements } from '../measure/schema/measurements.ts'
import { collectAsUsual, collectSeldom } from './garbage.ts'
import { Workers } from './workers.ts'

/** Measures one file at a time as it is asked to, by workers that stay warm from one to the next. */
export interface Warm {
  /** @throws the signal's reason when it is aborted; Error when the face models can't be loaded */
  measure(source: Source, groups: readonly MeasurementGroup[], signal: AbortSignal): Promise<Measurements>
  close(): Promise<void>
}

/** @param threads worker threads; 0 measures in this one, without limits of time and memory */
export function warm(threads: number): Warm {
  if (threads === 0)
    return {
      // Loaded only here: where workers measure, this thread needs neither decoder nor models.
      measure: async (source, groups) => (await import('../measure/measure.ts')).measure(source, groups),
      close: async () => {},
    }
  collectSeldom()
  const workers = new Workers(threads)
  return {
    measure: async (source, groups, signal) => {
      const [measured] = await workers.measure([source], groups, { signal })
      return measured as Measurements
    },
    async close() {
      collectAsUsual()
      await workers.close()
    },
  }
}
