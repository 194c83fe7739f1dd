import { basename, dirname } from 'node:path'
import { readNames } from '../delivery/identify.ts'
import type { FoundFile } from '../delivery/walk.ts'
import type { Standard } from '../judge/standard.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import { findPeople } from '../people/people.ts'
import { PICK } from '../people/roster-picks.ts'
import { namesFrame } from '../rules/delivery/pick.ts'

/**
 * Whose frames the files are, by their paths: by the naming of deliveries or of masters where a name fits one of them whole, else by the
 * folder. A picture is never asked; frames of which neither tells are left out.
 */
export function sittersOf(files: readonly FoundFile[], { spec, roster }: Standard): Map<string, string> {
  const deliverables = Object.keys(spec.deliverables)
  const sitters = new Map<string, string>()
  for (const { file } of files) {
    const folder = dirname(file)
    if (folder !== '.') sitters.set(file, folder)
  }
  for (const naming of [spec.masters, spec.naming]) {
    if (!naming) continue
    const names = readNames(files, naming, deliverables)
    const { attributions } = findPeople(names, naming, roster)
    for (const [index, { path, problems }] of names.entries()) {
      const { person, resemblance } = attributions[index] ?? {}
      if (problems.length === 0 && person && !resemblance) sitters.set(path, person)
    }
  }
  return sitters
}

/** The people whose pick names a frame, by its path; a pick that names several names none. */
export function picksOf(
  measured: readonly Measurements[],
  { roster, spec }: Standard,
): Map<string, string[]> {
  const picks = new Map<string, string[]>()
  if (!roster?.columns.includes(PICK)) return picks
  const { people } = findPeople([], spec.naming, roster)
  for (const { label, entry } of people) {
    const pick = entry?.values[PICK] ?? ''
    const [frame, ...others] = pick === '' ? [] : measured.filter((one) => isPicked(one, pick))
    if (frame && others.length === 0) picks.set(frame.file, [...(picks.get(frame.file) ?? []), label])
  }
  return picks
}

/** A frame is its own original. */
function isPicked({ file, metadata }: Measurements, pick: string): boolean {
  if (!metadata) return false
  const origin = { ...metadata.origin, rawFileName: basename(file) }
  return namesFrame({ ...metadata, origin }, pick).verdict === 'picked'
}
