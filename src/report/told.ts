import type { Report } from '../judge/report.ts'
import { byFile, isMiss, joined } from '../judge/verdict.ts'
import type { DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import { grouped } from './grouped.ts'

/** Where a report to be read tells each finding, so that none is told twice. */
export interface Told {
  /** By the path of a file: what is said of it alone. */
  readonly ofFiles: ReadonlyMap<string, readonly Outcome[]>
  /** What is said of people, of several files, or of the delivery as a whole. */
  readonly ofWhole: readonly DeliveryOutcome[]
}

export function toldIn({ files, delivery }: Report): Told {
  const known = new Set(files.map(({ file }) => file))
  const isOfOne = ({ files: [file, ...others] }: DeliveryOutcome) =>
    file !== undefined && others.length === 0 && known.has(file)
  const ofOne = byFile(delivery.outcomes.filter(isOfOne))
  return {
    ofFiles: new Map(files.map(({ file, outcomes }) => [file, joined(outcomes, ofOne.get(file))])),
    ofWhole: grouped(delivery.outcomes.filter((outcome) => !isOfOne(outcome))),
  }
}

/** The files that are unsure because no rule could be judged on them, by their paths: nothing else says so. */
export function unjudgedFiles(report: Report): ReadonlySet<string> {
  const about = byFile(report.delivery.outcomes)
  const binds = (outcome: Outcome) => !outcome.advisory && isMiss(outcome)
  const silent = report.files.filter(
    ({ file, verdict, outcomes }) =>
      verdict === 'unsure' && !outcomes.some(binds) && !about.get(file)?.some(binds),
  )
  return new Set(silent.map(({ file }) => file))
}
