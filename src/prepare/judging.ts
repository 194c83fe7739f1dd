import { namesOf, sourcesOf } from '../checking/sources.ts'
import type { FoundFile } from '../delivery/walk.ts'
import { assembleReport } from '../judge/assemble.ts'
import { requiredGroups } from '../judge/needs.ts'
import { knownBy, type Standard } from '../judge/standard.ts'
import { TOOL } from '../judge/tool.ts'
import { isMiss } from '../judge/verdict.ts'
import { type Means, measureAll } from '../pool/measure-all.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'

/** Rules on which people have files at all: what they miss is no fault of the files that are there. */
const OF_WHOLENESS: readonly string[] = ['roster', 'variants']

/** What is found against a file. */
export interface Judgment {
  /** Why it is held back; empty when it is not. */
  readonly reasons: string[]
  /** What is to be checked by eye in a file that is delivered. */
  readonly doubts: string[]
}

/** Nothing was left alone, since nothing was searched. */
export const NONE_LEFT = { hidden: 0, sidecars: 0, links: 0, other: 0 }

/**
 * Reads files back and judges them by the full spec, as the delivery that they make together. What fails is taken out and the rest
 * judged again until nothing that is left fails, since each file counts for the set.
 * @param strict whether a file that is unsure is held back too
 */
export async function judged(
  files: readonly FoundFile[],
  standard: Standard,
  { at, strict }: { readonly at: Date; readonly strict: boolean },
  means: Means,
): Promise<ReadonlyMap<string, Judgment>> {
  const nameOf = namesOf(files, standard)
  const groups = requiredGroups(standard.spec, ALL_RULES, knownBy(standard))
  const measured = await measureAll(sourcesOf(files, nameOf, standard), groups, means)
  const judgments = new Map<string, Judgment>()
  for (;;) {
    const left = measured.filter(({ file }) => !judgments.get(file)?.reasons.length)
    const report = assembleReport(
      {
        ...{ tool: TOOL, strict, left: NONE_LEFT, today: at.toISOString().slice(0, 10) },
        files: left.map((one) => ({ name: nameOf(one.file), measured: one })),
      },
      standard,
    )
    const isAgainst = ({ verdict }: Outcome) => strict || verdict === 'fail'
    let isSettled = true
    for (const { file, outcomes } of report.files) {
      const about = report.delivery.outcomes.filter(
        ({ rule, files: named }) => named.includes(file) && !OF_WHOLENESS.includes(rule),
      )
      const missed = [...outcomes, ...about].filter((outcome) => !outcome.advisory && isMiss(outcome))
      const reasons = missed.filter(isAgainst).map(told)
      judgments.set(file, { reasons, doubts: reasons.length > 0 ? [] : missed.map(told) })
      isSettled &&= reasons.length === 0
    }
    if (isSettled) return judgments
  }
}

function told({ rule, reason }: Outcome): string {
  return `${rule}: ${reason}`
}
