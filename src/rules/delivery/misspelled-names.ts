import { quoted } from '../../text/quoted.ts'
import type { DeliveryFinding } from '../contract/delivery-outcome.ts'
import type { DeliveredFile, Delivery } from '../contract/delivery-rule.ts'
import { renamesFix } from '../judging/rename-fix.ts'

/** What the files of a delivery are compared with. */
export const PEOPLE_EXPECTED = 'the people on the roster'

/** The files that mean someone by a name that is not quite theirs, a finding for each way to write it. */
export function misspelledNames(
  files: readonly DeliveredFile[],
  label: string,
  { namesJudged }: Delivery,
): DeliveryFinding[] {
  const byName = new Map<string, DeliveredFile[]>()
  for (const file of files) {
    if (file.resemblance?.among !== 'roster' || (namesJudged && isToldByName(file))) continue
    const written = Object.values(file.resemblance.fields).map(quoted).join(' ')
    byName.set(written, [...(byName.get(written) ?? []), file])
  }
  return [...byName].map(([written, alike]) => {
    const by = alike[0]?.resemblance?.by ?? 'spelling'
    const renames = alike.flatMap(({ rename }) => rename ?? [])
    const exact = renames.length === alike.length
    return {
      people: [label],
      files: alike.map(({ name }) => name.path),
      verdict: 'fail',
      measured: `misspelled: ${written}`,
      expected: PEOPLE_EXPECTED,
      reason: `${written} is not on the roster${DIFFERENCE[by]}; it most likely means ${quoted(label)}.`,
      fix: `${exact ? renamesFix(renames) : `Rename the file to match ${quoted(label)} on the roster.`} If it is someone else, add them to the roster.`,
      ...(exact && { renames }),
    }
  })
}

const DIFFERENCE = {
  case: ' with this capitalization',
  accents: ' with these accents',
  suffix: ' with that ending',
  spelling: '',
} as const

/** A field that misses its form is told by `file-name`, which knows the form. */
function isToldByName({ name, resemblance }: DeliveredFile): boolean {
  const told = name.problems.flatMap((problem) => (problem.kind === 'field' ? [problem.field] : []))
  return Object.keys(resemblance?.fields ?? {}).every((field) => told.includes(field))
}
