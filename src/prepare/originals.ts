import type { Spec } from '../brand-spec/spec.ts'
import { namesOf, sourcesOf } from '../checking/sources.ts'
import type { FoundFile } from '../delivery/walk.ts'
import { assembleReport } from '../judge/assemble.ts'
import { requiredGroups } from '../judge/needs.ts'
import { knownBy, type Standard } from '../judge/standard.ts'
import { TOOL } from '../judge/tool.ts'
import { isMiss } from '../judge/verdict.ts'
import { type Means, measureAll } from '../pool/measure-all.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import { NONE_LEFT } from './judging.ts'

/** Rules on which of several files shows whom. What they find no crop and no encoding repairs, and once a file is left out nothing tells it any more. */
const OF_IDENTITY: readonly string[] = ['duplicate-picture', 'same-frame']

/**
 * Which files of a delivery that is to be its own masters are in doubt as to whom they show, and why, by their paths; as far as the spec asks for it.
 * @throws the signal's reason when it is aborted
 */
export async function doubtfulOriginals(
  files: readonly FoundFile[],
  whole: Standard,
  at: Date,
  means: Means,
): Promise<ReadonlyMap<string, string>> {
  const standard = { ...whole, spec: onlyIdentity(whole.spec) }
  const doubts = new Map<string, string>()
  if (files.length === 0 || Object.keys(standard.spec.settings).length === 0) return doubts
  const nameOf = namesOf(files, standard)
  const groups = requiredGroups(standard.spec, ALL_RULES, knownBy(standard))
  const measured = await measureAll(sourcesOf(files, nameOf, standard), groups, means)
  const { delivery } = assembleReport(
    {
      ...{ tool: TOOL, strict: true, left: NONE_LEFT, today: at.toISOString().slice(0, 10) },
      files: measured.map((one) => ({ name: nameOf(one.file), measured: one })),
    },
    standard,
  )
  for (const outcome of delivery.outcomes) {
    if (!OF_IDENTITY.includes(outcome.rule) || outcome.advisory || !isMiss(outcome)) continue
    for (const file of outcome.files) if (!doubts.has(file)) doubts.set(file, sentenceOf(outcome))
  }
  return doubts
}

function sentenceOf({ reason, fix }: { readonly reason: string; readonly fix?: string | undefined }): string {
  return fix === undefined ? reason : `${reason} ${fix}`
}

function onlyIdentity(spec: Spec): Spec {
  const settings = Object.entries(spec.settings).filter(
    ([rule, setting]) => OF_IDENTITY.includes(rule) && setting !== false,
  )
  const deliverables = Object.keys(spec.deliverables).map((name) => [name, {}] as const)
  return {
    ...spec,
    settings: Object.fromEntries(settings),
    deliverables: Object.fromEntries(deliverables),
  }
}
