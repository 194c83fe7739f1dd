import type { Report } from '../judge/report.ts'
import type { Person } from '../people/person.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import { Waivers } from '../waivers/apply.ts'
import type { Waiver } from '../waivers/waiver.ts'
import type { Question } from './receipt.ts'

/** What of the client's findings the studio's exceptions would cover: for the client to agree to, one by one. */
export function questionsOf(
  { files, delivery }: Report,
  theirs: readonly Waiver[],
  people: readonly Person[],
  today: string,
): Question[] {
  const byFile = new Map(files.map((file) => [file.file, file]))
  const waivers = new Waivers(theirs, today, people, [...byFile.keys()])
  const ask = (outcome: Outcome, named: readonly string[], others: readonly string[]): Question[] => {
    if (outcome.waiver) return []
    const about = named.map((file) => byFile.get(file))
    const labels = [...others, ...about.map((file) => file?.person ?? null)]
    const unreadable = about.some((file) => file?.measurements.fault != null)
    const { waiver } = waivers.grant(outcome, { files: named, people: [...new Set(labels)], unreadable })
    if (!waiver) return []
    const known = [...new Set(labels)].filter((label) => label !== null)
    return [
      { ...waiver, rule: outcome.rule, files: [...named], people: known, finding: outcome.reason ?? '' },
    ]
  }
  return [
    ...files.flatMap(({ file, outcomes }) => outcomes.flatMap((outcome) => ask(outcome, [file], []))),
    ...delivery.outcomes.flatMap((outcome) => ask(outcome, outcome.files, outcome.people)),
  ]
}
