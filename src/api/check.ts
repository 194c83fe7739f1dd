import type { Spec } from '../brand-spec/spec.ts'
import { checkDelivery } from '../checking/check-delivery.ts'
import { findPictures } from '../checking/find-pictures.ts'
import { readBeside, standardBy } from '../checking/standard.ts'
import type { Report } from '../judge/report.ts'
import { measuringBy, quietHost, quietMeans, type RunOptions } from './quiet-host.ts'

export interface CheckOptions extends RunOptions {
  /** What the portraits are judged by: `await loadSpec('brand.yaml')`. */
  readonly spec: Spec
  /** Path of the list of people, a CSV file; replaces the one that the spec names. */
  readonly roster?: string
  /** Path of the approved exceptions, a YAML file; replaces the one that the spec names. */
  readonly waivers?: string
  /** Published portraits to compare with: path of a folder, or of a file made by `portrait-gate gallery`. */
  readonly gallery?: string
  /** Whether these are only some of the files, such as retakes: nobody else is missing then. */
  readonly partial?: boolean
  /** The day on which it is judged, by which exceptions hold and people have left; today (UTC) unless told. */
  readonly at?: Date
}

/**
 * Measures and judges a delivery: every portrait, and the delivery as a whole.
 * @param paths folders and files
 * @returns the report, as `--format json` prints it
 * @throws Error when nothing could be judged: a path is not there or holds no pictures, or what the spec names can't be
 *   read; the signal's reason when it is aborted
 */
export async function check(paths: readonly string[], options: CheckOptions): Promise<Report> {
  const { spec, at = new Date(), partial = false } = options
  const host = quietHost(options)
  const standard = standardBy(
    spec,
    await readBeside(spec, { ...options, ...measuringBy(options) }, host),
    host,
  )
  const found = standard && (await findPictures(paths, host))
  if (!found) throw host.trouble()
  const means = await quietMeans(options, host)
  return checkDelivery({ found, standard, strict: false, at, only: null, part: null, partial }, means)
}
