import { findPictures } from '../checking/find-pictures.ts'
import { GROUPS, type MeasurementGroup, type Measurements } from '../measure/schema/measurements.ts'
import { measureAll } from '../pool/measure-all.ts'
import { quietHost, quietMeans, type RunOptions } from './quiet-host.ts'

export interface MeasureOptions extends RunOptions {
  /** What is to be measured; all unless told. Fewer take less time: `['file']` reads headers only. */
  readonly groups?: readonly Exclude<MeasurementGroup, 'signature'>[]
}

// A signature is made from a face; it is of use only within a run.
const ALL = GROUPS.filter((group) => group !== 'signature')

/**
 * Measures portraits, without a spec; those that can't be read have a `fault`.
 * @param paths folders and files
 * @returns one object for each picture, by code point of the paths
 * @throws Error when a path is not there or holds no pictures; the signal's reason when it is aborted
 */
export async function measure(
  paths: readonly string[],
  { groups = ALL, ...options }: MeasureOptions = {},
): Promise<Measurements[]> {
  const host = quietHost(options)
  const found = await findPictures(paths, host)
  if (!found) throw host.trouble()
  return measureAll(found.files, ['checksum', ...groups], await quietMeans(options, host))
}
