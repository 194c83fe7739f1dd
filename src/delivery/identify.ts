import { sep } from 'node:path'
import type { NameProblem, NameReading } from '../naming/name-reading.ts'
import type { NamingPattern } from '../naming/naming.ts'
import { type FieldCheck, fieldCheck } from '../naming/naming-field.ts'
import { type PathReader, readPath, sameButForCase } from '../naming/read-path.ts'
import { isPlain } from '../naming/transliterate.ts'
import { nearest } from '../text/nearest.ts'
import { collisions, portabilityProblems } from './portability.ts'
import type { FoundFile } from './walk.ts'

/**
 * Reads what the paths of a delivery say, all together since two names can collide.
 *
 * The pattern describes the end of a path: as many folders as it has, and the file name. A file that lies less deep
 * below the delivery root lends the missing folders from the root's own path, so that checking one folder or one file
 * gives the same answer as checking the whole delivery.
 *
 * The deliverable is the field {deliverable} where the pattern has it; a misspelled one counts as the one that it most
 * likely means. Without that field it is known only when the spec has exactly one deliverable; it is never guessed from
 * the picture, whose size is what is to be judged.
 */
export function readNames(
  files: readonly FoundFile[],
  pattern: NamingPattern | null,
  deliverables: readonly string[],
): NameReading[] {
  const reader = pattern === null ? null : pathReader(pattern, deliverables)
  const clashes = collisions(files.map(({ file }) => file))
  return files.map((found, index) => {
    const clash = clashes[index]
    const { fields, otherReadings, problems } = reader
      ? readFound(found, reader)
      : { fields: {}, otherReadings: [], problems: [] }
    return {
      path: found.file,
      pattern: pattern?.text ?? null,
      fields: { ...fields },
      ...(otherReadings.length > 0 ? { otherReadings: otherReadings.map((other) => ({ ...other })) } : {}),
      deliverable: deliverableOf(fields, pattern, deliverables),
      problems: [...problems, ...portabilityProblems(found.file), ...(clash ? [clash] : [])],
    }
  })
}

/** A naming pattern made ready to read paths, with the checks of its fields. */
export function pathReader(pattern: NamingPattern, deliverables: readonly string[]): PathReader {
  const { fields, transliterate } = pattern
  const checks = new Map<string, FieldCheck>(
    Object.entries(fields).map(([field, constraint]) => {
      const check = fieldCheck(constraint)
      return [field, transliterate && !('one-of' in constraint) ? plainAnd(check) : check]
    }),
  )
  const other = transliterate ? plainAnd(anyText) : anyText
  checks.set('deliverable', fieldCheck({ 'one-of': [...deliverables] }))
  if (!checks.has('ext')) checks.set('ext', extensionCheck)
  return { pattern, deliverables, check: (field) => checks.get(field) ?? other }
}

const anyText: FieldCheck = () => null

/** For names that are written in the letters A to Z. */
function plainAnd(check: FieldCheck): FieldCheck {
  return (value) => check(value) ?? (isPlain(value) ? null : 'in the letters A to Z, without accents')
}

// Without it, "Abara.b.jpg" could be read {family}.{ext} as Abara and b.jpg.
const extensionCheck: FieldCheck = (value) => (value.includes('.') ? 'an extension without a dot' : null)

function readFound({ path, file }: FoundFile, reader: PathReader) {
  const depth = reader.pattern.segments.length
  const relative = file.normalize('NFC').split('/')
  const whole = relative.length >= depth ? relative : path.normalize('NFC').split(sep)
  const names = whole.slice(-depth)
  const length = names.join('/').length
  const reading = readPath(names, relative.join('/').length - length, reader)
  const above = relative.slice(0, Math.max(0, relative.length - depth))
  const lent = Math.max(0, depth - relative.length)
  const placed = reading.problems.map((problem): NameProblem => {
    if (!('folder' in problem) || problem.folder === undefined) return problem
    const parts = problem.folder.split('/')
    // Of the folders above the root only the name is shown.
    const shown = parts.length > lent ? [...above, ...parts.slice(lent)] : parts.slice(-1)
    return { ...problem, folder: shown.join('/') }
  })
  return { ...reading, problems: placed }
}

function deliverableOf(
  fields: Readonly<Record<string, string>>,
  pattern: NamingPattern | null,
  deliverables: readonly string[],
): string | null {
  const named = pattern?.segments.some((pieces) =>
    pieces.some((piece) => 'field' in piece && piece.field === 'deliverable'),
  )
  if (!named) return deliverables.length === 1 ? (deliverables[0] ?? null) : null
  const { deliverable: found } = fields
  return found === undefined ? null : (sameButForCase(found, deliverables) ?? meant(found, deliverables))
}

/** The deliverable that a misspelled one most likely means; null when it could be another one just as well. */
function meant(found: string, deliverables: readonly string[]): string | null {
  const likely = nearest(found, deliverables)
  const others = deliverables.filter((name) => name !== likely)
  return nearest(found, others) === null ? likely : null
}
