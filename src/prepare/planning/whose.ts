import { basename, parse } from 'node:path'
import type { Spec } from '../../brand-spec/spec.ts'
import { readNames } from '../../delivery/identify.ts'
import type { FoundFile } from '../../delivery/walk.ts'
import type { Measurements } from '../../measure/schema/measurements.ts'
import { copyMark } from '../../naming/copy-mark.ts'
import type { NameReading } from '../../naming/name-reading.ts'
import { spelledIn } from '../../naming/transliterate.ts'
import type { Roster } from '../../people/roster.ts'
import type { RosterEntry } from '../../people/roster-entry.ts'
import { PICK } from '../../people/roster-picks.ts'
import { namesFrame } from '../../rules/delivery/pick.ts'
import { capitalized } from '../../text/capitalized.ts'
import { byCodePoint } from '../../text/code-points.ts'
import { listed } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import { byLikeness, type Delivered } from './by-likeness.ts'
import { isRead, type StandsFor, standsFor, told, type Whose } from './stands-for.ts'

/** A master with what was measured of it. */
export interface MeasuredMaster {
  readonly found: FoundFile
  readonly measured: Measurements
}

/**
 * Tells of each master whom it shows: by its name, by the pick that names it, by its name if it is that of a delivered file, or by the delivered
 * files that are of its frame. What none of them tells is a question, never a guess.
 */
export function whoseAre(
  masters: readonly MeasuredMaster[],
  spec: Spec,
  roster: Roster | null,
  delivered: readonly MeasuredMaster[] = [],
): Whose[] {
  const deliverables = Object.keys(spec.deliverables)
  const readings = readNames(
    masters.map(({ found }) => found),
    spec.masters,
    deliverables,
  )
  const own = standsFor(
    masters.map(({ found }) => found),
    spec,
    roster,
  )
  const names = standsFor(
    delivered.map(({ found }) => found),
    spec,
    roster,
  )
  const known = delivered.flatMap(({ measured }, index): Delivered[] => {
    const named = names[index]
    return named ? [{ measured, named }] : []
  })
  const byNames = masters.map((master, index) => {
    const reading = spec.masters ? readings[index] : undefined
    return byName(reading, spec, roster) ?? byPick(master, roster) ?? asDelivered(own[index] ?? null, spec)
  })
  const open = masters.filter((_, index) => byNames[index] === null)
  const alike = byLikeness(
    open.map(({ measured }) => measured),
    known,
  )
  const answers = masters.map(
    (master, index) => byNames[index] ?? alike[open.indexOf(master)] ?? unknown(master, spec, roster, known),
  )
  return answers.map((answer, index) => doubled(answer, index, masters, answers) ?? answer)
}

function byName(reading: NameReading | undefined, { naming }: Spec, roster: Roster | null): Whose | null {
  if (!reading || !isRead(reading)) return null
  const { deliverable: _, ext: __, ...fields } = reading.fields
  if (Object.keys(fields).length === 0) return null
  if (!roster) return { fields, deliverable: null, pick: null }
  const shared = Object.keys(fields).filter((field) => roster.columns.includes(field))
  if (shared.length === 0) return { fields, deliverable: null, pick: null }
  const entries = roster.entries.filter(({ values }) =>
    shared.every(
      (field) => spelledIn(naming, values[field] ?? '') === spelledIn(naming, fields[field] ?? ''),
    ),
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
  return { fields: { ...fields, ...told(values) }, deliverable: null, pick: values[PICK] || null }
}

/** A delivered file as its own master: only what it is itself can be made of it. */
function asDelivered(named: StandsFor | null, { deliverables }: Spec): Whose | null {
  const isPlaced = named?.deliverable !== null || Object.keys(deliverables).length === 0
  return named && isPlaced ? named : null
}

function unknown(
  { found }: MeasuredMaster,
  { masters }: Spec,
  roster: Roster | null,
  delivered: readonly Delivered[],
): Whose {
  const name = quoted(basename(found.file))
  const hasPicks = roster?.columns.includes(PICK) ?? false
  const looked = [
    ...(masters ? [`its name does not read ${quoted(masters.text)}`] : []),
    ...(hasPicks ? ['no pick of the roster names it'] : []),
    ...(delivered.length > 0 ? ['no file of the delivery is plainly of its frame'] : []),
  ]
  const why = looked.length === 0 ? '' : ` ${capitalized(listed(looked))}.`
  const fix = masters
    ? 'Rename it.'
    : `Write into the spec how masters are named, such as masters: { naming: "{staff-id}.tif" }${hasPicks ? '' : ', or give the roster a column pick'}.`
  return { question: `Who is in ${name}?${why} ${fix}` }
}

/** Two masters of one person: which is meant, only a person can say. */
function doubled(
  answer: Whose,
  index: number,
  masters: readonly MeasuredMaster[],
  answers: readonly Whose[],
): Whose | null {
  if (!('fields' in answer)) return null
  const keyOf = (one: typeof answer) => JSON.stringify([one.fields, one.deliverable])
  const same = masters.filter((_, at) => {
    const other = answers[at]
    return at !== index && other && 'fields' in other && keyOf(other) === keyOf(answer)
  })
  const own = masters[index]
  if (same.length === 0 || !own) return null
  const { sha256 } = own.measured
  if (sha256 && same.every(({ measured }) => measured.sha256 === sha256)) {
    const [used] = [own, ...same].sort((a, b) => byPlace(a.found.file, b.found.file))
    if (!used || used === own) return null
    return {
      question: `It is a copy of ${quoted(used.found.file)}, byte for byte, which is used. Remove it.`,
    }
  }
  const names = listed(same.map(({ found }) => quoted(found.file)))
  return { question: `It shows the same person as ${names}. Leave only the one that is to be used.` }
}

/** Files whose names are no copy's first, then those in fewer folders, then by path. */
function byPlace(a: string, b: string): number {
  const isCopy = (file: string) => Number(copyMark(parse(file).name) !== null)
  return isCopy(a) - isCopy(b) || a.split('/').length - b.split('/').length || byCodePoint(a, b)
}
