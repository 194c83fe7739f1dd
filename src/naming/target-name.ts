import { nearest } from '../text/nearest.ts'
import type { NameReading } from './name-reading.ts'
import type { NamePiece } from './naming.ts'
import { type PathReader, readPath, sameButForCase } from './read-path.ts'
import { repairedField } from './repaired-field.ts'
import { spelledIn } from './transliterate.ts'

/** What is known of a file beside its name. */
export interface KnownOfFile {
  /** Fields of the person whose portrait it is, which count for more than what the name says; null when nobody is known. */
  readonly person: Readonly<Record<string, string>> | null
  /** The extensions that fit the content, without dots, the usual one first; null when the content is not known. */
  readonly extensions: readonly string[] | null
}

export interface TargetName {
  /** Relative to the delivery root; the file's own path when that is right. */
  readonly path: string
  /** Whether its extension fits the content, so that renaming is enough; true when the content is not known. */
  readonly fits: boolean
}

/** The exact path that a file should have by the pattern; null when a field can't be told. */
export function targetName(name: NameReading, known: KnownOfFile, reader: PathReader): TargetName | null {
  const { segments } = reader.pattern
  const written = name.path.normalize('NFC').split('/')
  const wanted = composed(name.fields, known, reader)
  // What was read without a problem is not read again.
  const isAsWritten = name.problems.length === 0 && endsWith(written, wanted)
  if (!wanted || (!isAsWritten && !isRead(wanted, reader))) return null
  // Folders above the delivery root can't be renamed from here.
  const lent = segments.slice(0, Math.max(0, segments.length - written.length)).flat()
  if (lent.some((piece) => valueFor(piece, name.fields, known, reader) !== valueNow(piece, name.fields)))
    return null
  const above = written.slice(0, Math.max(0, written.length - segments.length))
  const path = [...above, ...wanted.slice(Math.max(0, segments.length - written.length))].join('/')
  return { path, fits: hasFittingExtension(path, known.extensions) }
}

/** The folders and the file name that fields make by the pattern; null when one is missing or does not fit. */
export function writtenNames(fields: Fields, known: KnownOfFile, reader: PathReader): string[] | null {
  const wanted = composed(fields, known, reader)
  return wanted && isRead(wanted, reader) ? wanted : null
}

/** Whether names read without a problem. */
function isRead(names: readonly string[], reader: PathReader): boolean {
  return readPath(names, 0, reader).problems.length === 0
}

function endsWith(names: readonly string[], end: readonly string[] | null): boolean {
  return end?.every((name, i) => names[names.length - end.length + i] === name) ?? false
}

function composed(fields: Fields, known: KnownOfFile, reader: PathReader): string[] | null {
  const wanted: string[] = []
  for (const pieces of reader.pattern.segments) {
    const values = pieces.map((piece) => valueFor(piece, fields, known, reader))
    if (values.some((value) => value === null || value.includes('/'))) return null
    wanted.push(values.join(''))
  }
  return wanted
}

type Fields = Readonly<Record<string, string>>

function valueNow(piece: NamePiece, fields: Fields): string | null {
  return 'text' in piece ? piece.text : (fields[piece.field] ?? null)
}

function valueFor(
  piece: NamePiece,
  fields: Fields,
  { person, extensions }: KnownOfFile,
  { pattern, deliverables, check }: PathReader,
): string | null {
  if ('text' in piece) return piece.text
  const { field } = piece
  const found = fields[field] ?? ''
  if (field === 'deliverable') return deliverableFor(found, deliverables)
  if (field === 'ext') return extensionFor(found, extensions, check(field))
  const spelled = (value: string) => spelledIn(pattern, value)
  const own = person?.[field]
  if (own) return spelled(own)
  const constraint = pattern.fields[field]
  return repairedField(spelled(found), constraint ?? {})
}

function deliverableFor(found: string, deliverables: readonly string[]): string | null {
  return found === '' ? null : (sameButForCase(found, deliverables) ?? nearest(found, deliverables))
}

function extensionFor(
  found: string,
  extensions: readonly string[] | null,
  check: (value: string) => string | null,
): string | null {
  const fitting = extensions ?? [found]
  const small = found.toLowerCase()
  const kept = fitting.includes(small) ? [found, small] : []
  const all = [...kept, ...fitting, ...fitting.map((one) => one.toUpperCase())]
  return all.find((one) => one !== '' && check(one) === null) ?? null
}

/** Whether the name's extension, if it has any, is one of those that fit the content; true when that is not known. */
function hasFittingExtension(path: string, extensions: readonly string[] | null): boolean {
  const found = /\.([A-Za-z0-9]{1,8})$/.exec(path)?.[1]
  return extensions === null || found === undefined || extensions.includes(found.toLowerCase())
}
