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

/** Why files do not pass, by their paths; nothing for those that do. */
export type HeldBack = ReadonlyMap<string, readonly string[]>

/** Nothing was left alone, since nothing was searched. */
export const NONE_LEFT = { hidden: 0, sidecars: 0, links: 0, other: 0 }

/**
 * Reads files back and judges them by the full spec, as the delivery that they make together. What fails is taken out and the rest
 * judged again until all that is left passes, since each file counts for the set.
 * @param strict whether a file that is unsure is held back too
 */
export async function judged(
  files: readonly FoundFile[],
  standard: Standard,
  { at, strict }: { readonly at: Date; readonly strict: boolean },
  means: Means,
): Promise<HeldBack> {
  const nameOf = namesOf(files, standard)
  const groups = requiredGroups(standard.spec, ALL_RULES, knownBy(standard))
  const measured = await measureAll(sourcesOf(files, nameOf, standard), groups, means)
  const heldBack = new Map<string, readonly string[]>()
  for (;;) {
    const left = measured.filter(({ file }) => !heldBack.has(file))
    const report = assembleReport(
      {
        ...{ tool: TOOL, strict, left: NONE_LEFT, today: at.toISOString().slice(0, 10) },
        files: left.map((one) => ({ name: nameOf(one.file), measured: one })),
      },
      standard,
    )
    const before = heldBack.size
    const isAgainst = (outcome: Outcome) =>
      !outcome.advisory && isMiss(outcome) && (strict || outcome.verdict === 'fail')
    for (const { file, outcomes } of report.files) {
      const about = report.delivery.outcomes.filter(
        ({ rule, files: named }) => named.includes(file) && !OF_WHOLENESS.includes(rule),
      )
      const against = [...outcomes, ...about].filter(isAgainst)
      if (against.length > 0)
        heldBack.set(
          file,
          against.map(({ rule, reason }) => `${rule}: ${reason}`),
        )
    }
    if (heldBack.size === before) return heldBack
  }
}
