import { isExpected } from '../people/roster-entry.ts'
import { listed } from '../text/quantity.ts'
import { quoted } from '../text/quoted.ts'
import { aboutShown } from './about-shown.ts'
import type { PublishedFinding, PublishedReport } from './finding.ts'
import { Approved, comparable } from './match.ts'
import type { Publication } from './publication.ts'

/** Holds what is shown in public against what was approved. */
export function comparePublished(
  publication: Publication,
  found: readonly PublishedFinding[] = [],
): PublishedReport {
  const { shown, approved, people, hasRoster, today } = publication
  const standing = new Approved(
    approved.map((of) => ({ of, measured: of.measured, picture: comparable(of.measured) })),
  )
  const findings = [...found]
  const seen = new Set<string>()
  const right = new Set<string>()
  for (const one of shown) {
    const about = aboutShown(one, standing, publication)
    findings.push(...about.findings)
    if (about.person) seen.add(about.person.label)
    if (about.isRight && about.person) right.add(about.person.label)
  }
  for (const person of people) {
    const wanted = hasRoster ? person.entry !== null && isExpected(person.entry, today) : true
    if (!wanted || seen.has(person.label)) continue
    const own = approved.flatMap(({ name, person: whose }) =>
      whose?.label === person.label ? [name.path] : [],
    )
    findings.push({
      ...{
        kind: 'missing',
        verdict: 'fail',
        file: null,
        person: person.label,
        approved: own[0] ?? null,
      },
      message:
        own.length > 0
          ? `${quoted(person.label)} is not shown. Publish ${listed(own.map(quoted), 'or')}.`
          : `${quoted(person.label)} is not shown, and no portrait of theirs was approved.`,
    })
  }
  const verdict = findings.some((one) => one.verdict === 'fail')
    ? 'fail'
    : findings.length > 0
      ? 'unsure'
      : 'pass'
  return {
    kind: 'published portraits',
    verdict: shown.length === 0 && verdict === 'pass' ? 'unsure' : verdict,
    shown: shown.length,
    approved: approved.length,
    people: right.size,
    findings,
  }
}
