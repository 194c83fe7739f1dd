import { nearest } from '../text/nearest.ts'
import { copyMark } from './copy-mark.ts'
import { type Match, matchName, type ReadPiece } from './match-name.ts'
import type { NameProblem } from './name-reading.ts'
import type { NamingPattern } from './naming.ts'
import type { FieldCheck } from './naming-field.ts'

/** A naming pattern made ready to read many paths. */
export interface PathReader {
  readonly pattern: NamingPattern
  readonly deliverables: readonly string[]
  readonly check: (field: string) => FieldCheck
}

export interface PathReading {
  readonly fields: Readonly<Record<string, string>>
  readonly otherReadings: readonly Readonly<Record<string, string>>[]
  readonly problems: readonly NameProblem[]
}

/**
 * Reads the end of a path along the pattern: as many folders as the pattern has, and the file name. Problems name their
 * folder from the first of the names on.
 *
 * @param names the folders and the file name, in NFC, at least as many as the pattern has
 * @param offset where the first of the names that the pattern describes begins in the path shown to the user
 */
export function readPath(names: readonly string[], offset: number, reader: PathReader): PathReading {
  const all: NameProblem[] = []
  let readings: Record<string, string>[] = [{}]
  let start = offset
  for (const [index, pieces] of reader.pattern.segments.entries()) {
    const problems: NameProblem[] = []
    const written = names[index] ?? ''
    const isFile = index === names.length - 1
    const extension = isFile ? wantedExtension(pieces) : null
    const name = extension === null ? written : withExtension(written, extension, problems)
    const whole = matchName(name, pieces, reader.check)
    const copy = isFile ? copyOf(name, whole, pieces, reader) : null
    if (copy) problems.push({ kind: 'copy', mark: copy.mark })
    const match = copy?.match ?? whole
    if ('splits' in match) {
      problems.push(...match.splits.slice(0, 1).flatMap((split) => pieceProblems(split, reader)))
      readings = combined(readings, match.splits.map(fieldsOf))
    } else {
      const at = Math.max(0, start + match.at)
      problems.push({ kind: 'no-match', at, wanted: match.wanted, found: written.slice(match.at) })
      readings = combined(readings, [fieldsOf(match.read)])
    }
    start += written.length + 1
    const folder = names.slice(0, index + 1).join('/')
    all.push(...(isFile ? problems : problems.map((problem) => ({ ...problem, folder }))))
  }
  const [fields = {}, ...otherReadings] = readings
  return { fields, otherReadings, problems: all }
}

/** The name of a copy read without its mark; null when it has none, or fits the pattern better with it. */
function copyOf(
  name: string,
  whole: Match,
  pieces: NamingPattern['segments'][number],
  reader: PathReader,
): { readonly match: Match; readonly mark: string } | null {
  const extension = EXTENSION.exec(name)?.[0] ?? ''
  const copy = copyMark(name.slice(0, name.length - extension.length))
  if (!copy) return null
  const match = matchName(`${copy.name}${extension}`, pieces, reader.check)
  const faults = (one: Match) =>
    'splits' in one ? pieceProblems(one.splits[0] ?? [], reader).length : Infinity
  return faults(match) < Infinity && faults(match) <= faults(whole) ? { match, mark: copy.mark } : null
}

const EXTENSION = /\.[A-Za-z0-9]{1,8}$/

function wantedExtension(pieces: NamingPattern['segments'][number]): string | null {
  const last = pieces.at(-1)
  return last && 'text' in last ? (EXTENSION.exec(last.text)?.[0] ?? null) : null
}

/** The name with the extension that is wanted, so that one wrong extension does not hide what else is wrong. */
function withExtension(name: string, wanted: string, problems: NameProblem[]): string {
  const found = EXTENSION.exec(name)?.[0] ?? ''
  if (found.toLowerCase() === wanted.toLowerCase()) return name
  problems.push({ kind: 'extension', wanted, found })
  const stem = name.slice(0, name.length - found.length)
  // Spaces and periods at the end, which Windows refuses, hide the extension before them.
  const trimmed = stem.replace(/[ .]+$/, '')
  return trimmed.toLowerCase().endsWith(wanted.toLowerCase()) ? trimmed : `${stem}${wanted}`
}

function pieceProblems(split: readonly ReadPiece[], { deliverables, check }: PathReader): NameProblem[] {
  return split.flatMap((piece): NameProblem[] => {
    if ('text' in piece) {
      if (piece.text === piece.value) return []
      return [{ kind: 'letter-case', wanted: piece.text, found: piece.value }]
    }
    const wanted = check(piece.field)(piece.value)
    if (wanted === null) return []
    if (piece.field === 'deliverable') return [deliverableProblem(piece.value, deliverables)]
    return [{ kind: 'field', field: piece.field, wanted, found: piece.value }]
  })
}

function deliverableProblem(found: string, deliverables: readonly string[]): NameProblem {
  const wanted = sameButForCase(found, deliverables)
  if (wanted !== null) return { kind: 'letter-case', wanted, found }
  return { kind: 'deliverable', found, nearest: nearest(found, deliverables) }
}

/** The name that a text (in NFC) is, capital and small letters not counted; null when it is none of them. */
export function sameButForCase(text: string, names: readonly string[]): string | null {
  const small = text.toLowerCase()
  return names.find((name) => name.normalize('NFC').toLowerCase() === small) ?? null
}

function fieldsOf(split: readonly ReadPiece[]): Record<string, string> {
  const fields = split.filter((piece) => 'field' in piece)
  return Object.fromEntries(fields.map(({ field, value }) => [field, value]))
}

// As many readings as one name gives; folders rarely add any.
const MOST_READINGS = 8

function combined(
  readings: readonly Record<string, string>[],
  more: readonly Record<string, string>[],
): Record<string, string>[] {
  return readings
    .flatMap((reading) => more.map((fields) => ({ ...reading, ...fields })))
    .slice(0, MOST_READINGS)
}
