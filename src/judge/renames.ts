import type { Spec } from '../brand-spec/spec.ts'
import { pathReader } from '../delivery/identify.ts'
import { type Compare, type NamedFile, planRenames } from '../delivery/renames.ts'
import { ready } from '../likeness/ready-signature.ts'
import { samePicture } from '../likeness/same-picture.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import type { Rename } from '../naming/rename.ts'
import { targetName } from '../naming/target-name.ts'
import type { People } from '../people/people.ts'
import type { DeliveredFile } from '../rules/contract/delivery-rule.ts'
import { FORMATS, isFormat } from '../rules/judging/format-names.ts'

type MeasuredFile = Pick<DeliveredFile, 'name' | 'measured'>

/**
 * What is to become of the files with wrong names, by their paths; empty without a naming pattern or anything to tell.
 * @param people whom the names of the files tell, in the files' order
 */
export function renamesOf(
  files: readonly MeasuredFile[],
  { people, attributions }: People,
  { naming, deliverables }: Spec,
): ReadonlyMap<string, Rename> {
  const reader = naming === null ? null : pathReader(naming, Object.keys(deliverables))
  const fields = new Map(people.map((person) => [person.label, person.fields]))
  const named = files.map(({ name, measured }, index): NamedFile => {
    const person = attributions[index]?.person ?? null
    const known = {
      person: person === null ? null : (fields.get(person) ?? null),
      extensions: extensionsOf(measured),
    }
    const composed = { path: name.path.normalize('NFC'), fits: true }
    const target = reader ? targetName(name, known, reader) : composed
    return {
      path: name.path,
      wanted: target?.path ?? null,
      fits: target?.fits ?? false,
      isCopy: name.problems.some(({ kind }) => kind === 'copy'),
    }
  })
  return planRenames(named, comparing(files))
}

function extensionsOf({ format }: Measurements): readonly string[] | null {
  return format !== null && isFormat(format) ? FORMATS[format].extensions : null
}

/** Compares the few files that claim one name: byte for byte, and as pictures where their signatures were measured. */
function comparing(files: readonly MeasuredFile[]): Compare {
  const byPath = new Map(files.map(({ name, measured }) => [name.path, measured]))
  return (a, b) => {
    const [first, second] = [byPath.get(a), byPath.get(b)]
    if (!first || !second) return null
    if (first.sha256 !== null && first.sha256 === second.sha256) return 'bytes'
    // The same picture in another size is another deliverable.
    if (first.widthPx !== second.widthPx || first.heightPx !== second.heightPx) return null
    const p = first.signature ? ready(first.signature) : null
    const q = second.signature ? ready(second.signature) : null
    if (!p || !q) return null
    const { sameness, isMirrored } = samePicture(p, q)
    return sameness === 'same' && !isMirrored ? 'picture' : null
  }
}
