import type { Host } from '../checking/host.ts'
import type { Standard } from '../judge/standard.ts'
import type { Prepared } from '../prepare/ledger/prepared.ts'
import type { PreparePlan } from '../prepare/planning/plan.ts'
import { mastersOf, shownMasters } from '../prepare/telling/masters.ts'
import { planSentence, preparedSentence } from '../prepare/telling/table.ts'
import { mastersPage } from '../report/html/masters/masters-page.ts'
import { writeSinks } from './outputs.ts'

/** What a page of masters is about. */
export interface MastersReport {
  readonly plan: PreparePlan
  /** Null where only a plan was made. */
  readonly prepared: Prepared | null
  readonly standard: Standard
  readonly at: Date
}

/**
 * Writes the page on which each master shows with its crops.
 * @param file where to, relative to the host's folder
 * @throws UsageError when it can't be written
 */
export async function writeMasters(
  file: string,
  { plan, prepared, standard: { spec }, at }: MastersReport,
  host: Host,
): Promise<void> {
  // Loaded for this page alone: it brings the picture library along.
  const { makePictures } = await import('../report/html/pictures.ts')
  const masters = mastersOf(plan)
  const files = masters.flatMap(({ found, measured }) =>
    measured.fault === null ? [{ file: found.file, measurements: measured, outcomes: [] }] : [],
  )
  const pictures = await makePictures(
    { files },
    masters.map(({ found }) => found),
    host.signal,
  )
  const page = mastersPage(shownMasters(plan, prepared, pictures), {
    ...{ spec, at, deliverables: Object.keys(spec.deliverables) },
    summary: prepared ? preparedSentence(prepared) : planSentence(plan),
  })
  await writeSinks([{ format: 'html', file }], () => page, host)
}
