import type { FoundFile } from '../delivery/walk.ts'
import { assembleReport, type Run } from '../judge/assemble.ts'
import { requiredGroups } from '../judge/needs.ts'
import { knownBy, type Standard } from '../judge/standard.ts'
import { type Means, measureAll } from '../pool/measure-all.ts'
import type { DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'
import { DELIVERY_RULES } from '../rules/delivery-index.ts'
import { namesOf, sourcesOf } from './sources.ts'

/** What was judged, after a change. */
export interface Now {
  readonly run: Run
  /** The files that the change touches, by their paths from the delivery root on. */
  readonly judged: ReadonlySet<string>
  readonly standard: Standard
}

/**
 * What the delivery as a whole would have been told before a change, by the same standard. What the change does not touch
 * is not measured again.
 * @param before the files of the delivery as it was
 * @returns null when one of them could not be measured: without it, other findings would come out
 */
export async function outcomesBefore(
  before: readonly FoundFile[],
  { run, judged, standard }: Now,
  means: Means,
): Promise<readonly DeliveryOutcome[] | null> {
  const nameOf = namesOf(before, standard)
  const measured = new Map(run.files.map((one) => [one.name.path, one.measured]))
  for (const file of judged) measured.delete(file)
  const others = sourcesOf(
    before.filter(({ file }) => !measured.has(file)),
    nameOf,
    standard,
  )
  const groups = requiredGroups(standard.spec, DELIVERY_RULES, knownBy(standard))
  for (const one of await measureAll(others, groups, { ...means, progress: () => {} })) {
    if (one.fault?.kind === 'not-measured' || one.fault?.kind === 'unreadable') return null
    measured.set(one.file, one)
  }
  const files = before.flatMap(({ file }) => {
    const one = measured.get(file)
    return one ? [{ name: nameOf(file), measured: one }] : []
  })
  return assembleReport({ ...run, files }, standard).delivery.outcomes
}
