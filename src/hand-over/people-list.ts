import type { Spec } from '../brand-spec/spec.ts'
import { personFields, type Roster } from '../people/roster.ts'
import { isExpected } from '../people/roster-entry.ts'
import { rosterSetting } from '../people/roster-setting.ts'
import { forCsv } from '../report/safe.ts'

/**
 * The people of whom portraits are delivered, as comma-separated values: by the fields that the spec lets out of the house.
 * @param today as 2027-03-31
 * @returns null when there is no roster, or none of its columns is let out
 */
export function peopleList(spec: Spec, roster: Roster | null, today: string): string | null {
  const { handOver } = rosterSetting(spec.settings.roster)
  const { naming } = spec
  if (roster === null || naming === null || handOver === 'nobody') return null
  const fields = personFields(naming).filter((field) => roster.columns.includes(field))
  const shown = handOver === 'numbers' ? fields.filter((field) => isNumber(naming.fields[field])) : fields
  if (shown.length === 0) return null
  const rows = roster.entries
    .filter((entry) => isExpected(entry, today))
    .map(({ values }) => shown.map((field) => values[field] ?? ''))
  return [shown, ...rows].map((row) => `${row.map(forCsv).join(',')}\r\n`).join('')
}

function isNumber(constraint: object | undefined): boolean {
  return constraint !== undefined && 'digits' in constraint
}
