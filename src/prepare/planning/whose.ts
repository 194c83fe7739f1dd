import { basename } from 'node:path'
import type { Spec } from '../../brand-spec/spec.ts'
import { readNames } from '../../delivery/identify.ts'
import type { FoundFile } from '../../delivery/walk.ts'
import type { Measurements } from '../../measure/schema/measurements.ts'
import type { NameReading } from '../../naming/name-reading.ts'
import type { Roster } from '../../people/roster.ts'
import type { RosterEntry } from '../../people/roster-entry.ts'
import { PICK } from '../../people/roster-picks.ts'
import { namesFrame } from '../../rules/delivery/pick.ts'
import { listed } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'

/** A master with what was measured of it. */
export interface MeasuredMaster {
  readonly found: FoundFile
  readonly measured: Measurements
}

/** Whom a master shows, by fields of names and columns of the roster; or what has to be asked about it. */
export type Whose =
  | { readonly fields: Readonly<Record<string, string>>; readonly pick: string | null }
  | { readonly question: string }

/** Tells of each master whom it shows: by its name, or by the pick that names it; what does not tell is a question, never a guess. */
export function whoseAre(masters: readonly MeasuredMaster[], spec: Spec, roster: Roster | null): Whose[] {
  const deliverables = Object.keys(spec.deliverables)
  const readings = readNames(
    masters.map(({ found }) => found),
    spec.masters,
    deliverables,
  )
  const answers = masters.map((master, index) => {
    const reading = spec.masters ? readings[index] : undefined
    return byName(reading, roster) ?? byPick(master, roster) ?? unknown(master, spec, roster)
  })
  return answers.map((answer, index) => doubled(answer, index, masters, answers) ?? answer)
}

/** What keeps a name from telling whose it is; its ending and what other systems make of it don't. */
const UNREAD: readonly NameReading['problems'][number]['kind'][] = ['no-match', 'field', 'deliverable']

function byName(reading: NameReading | undefined, roster: Roster | null): Whose | null {
  if (!reading || reading.problems.some(({ kind }) => UNREAD.includes(kind))) return null
  const { deliverable: _, ext: __, ...fields } = reading.fields
  if (Object.keys(fields).length === 0) return null
  if (!roster) return { fields, pick: null }
  const shared = Object.keys(fields).filter((field) => roster.columns.includes(field))
  if (shared.length === 0) return { fields, pick: null }
  const entries = roster.entries.filter(({ values }) =>
    shared.every((field) => values[field]?.normalize('NFC') === fields[field]?.normalize('NFC')),
  )
  const named = listed(shared.map((field) => `${field} ${quoted(fields[field] ?? '')}`))
  if (entries.length === 0)
    return { question: `Nobody on the roster has ${named}. Correct the name of the file or the roster.` }
  const [entry, ...others] = entries
  if (!entry || others.length > 0)
    return {
      question: `${entries.length} people on the roster have ${named}. Add a field to masters.naming that tells them apart.`,
    }
  return of(entry, fields)
}

function byPick({ found, measured }: MeasuredMaster, roster: Roster | null): Whose | null {
  if (!roster?.columns.includes(PICK) || !measured.metadata) return null
  const { metadata } = measured
  const own = { ...metadata, origin: { ...metadata.origin, preservedFileName: basename(found.file) } }
  const entries = roster.entries.filter(({ values }) => {
    const { [PICK]: pick = '' } = values
    return pick !== '' && [own, metadata].some((one) => namesFrame(one, pick).verdict === 'picked')
  })
  const [entry, ...others] = entries
  if (!entry) return null
  if (others.length > 0)
    return { question: `It is the pick of ${entries.length} people on the roster. Correct the column pick.` }
  return of(entry, {})
}

function of({ values }: RosterEntry, fields: Readonly<Record<string, string>>): Whose {
  const told = Object.fromEntries(Object.entries(values).filter(([, value]) => value !== ''))
  return { fields: { ...fields, ...told }, pick: values[PICK] || null }
}

function unknown({ found }: MeasuredMaster, { masters }: Spec, roster: Roster | null): Whose {
  const name = quoted(basename(found.file))
  const pick = roster?.columns.includes(PICK) ? ', and no pick of the roster names it' : ''
  if (!masters)
    return {
      question: `Whom does ${name} show? Write into the spec how masters are named, such as masters: { naming: "{staff-id}.tif" }${pick === '' ? ', or give the roster a column pick' : pick}.`,
    }
  return {
    question: `Whom does ${name} show? Its name does not read ${quoted(masters.text)}${pick}. Rename it.`,
  }
}

/** Two masters of one person: which is meant, only a person can say. */
function doubled(
  answer: Whose,
  index: number,
  masters: readonly MeasuredMaster[],
  answers: readonly Whose[],
): Whose | null {
  if (!('fields' in answer)) return null
  const key = JSON.stringify(answer.fields)
  const same = masters.filter((_, at) => {
    const other = answers[at]
    return at !== index && other && 'fields' in other && JSON.stringify(other.fields) === key
  })
  if (same.length === 0) return null
  const names = listed(same.map(({ found }) => quoted(found.file)))
  return { question: `It shows the same person as ${names}. Leave only the one that is to be used.` }
}
