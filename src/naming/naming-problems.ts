import { nearest } from '../text/nearest.ts'
import { quote } from '../text/quote.ts'
import { type FieldConstraint, impossibleConstraint } from './naming-field.ts'

/** Fields whose meaning the program knows; others are declared under `naming.fields`. */
export const KNOWN_FIELDS: Readonly<Record<string, string>> = {
  deliverable: 'a name from `deliverables`',
  family: "the sitter's family name",
  given: "the sitter's given name",
  'staff-id': "the sitter's number or code in the client's staff list",
  ext: 'the extension, without its dot',
}

/** Something wrong with the pattern at character `at` (from 0, UTF-16 units), or with an entry of `naming.fields`. */
export type PatternProblem = { readonly message: string } & (
  | { readonly at: number }
  | { readonly field: string }
)

interface Place {
  readonly field: string
  readonly at: number
}

/** Problems of the fields that the pattern uses. */
export function fieldProblems(
  places: readonly Place[],
  declared: Readonly<Record<string, FieldConstraint>>,
  deliverables: readonly string[],
): PatternProblem[] {
  const known = new Set([...Object.keys(KNOWN_FIELDS), ...Object.keys(declared)])
  const seen = new Set<string>()
  return places.flatMap(({ field, at }) => {
    const doubled = seen.has(field)
    seen.add(field)
    const message = doubled
      ? `{${field}} appears twice in the pattern; use it once, so that its value is clear.`
      : unfitField(field, known, deliverables)
    return message === null ? [] : [{ at, message }]
  })
}

function unfitField(
  field: string,
  known: ReadonlySet<string>,
  deliverables: readonly string[],
): string | null {
  if (field === 'deliverable' && deliverables.length === 0)
    return 'The pattern has {deliverable}, but the spec names no deliverables; name them under "deliverables", or remove the field.'
  if (known.has(field)) return null
  if (field === '') return 'These braces are empty; put the name of a field in them, such as {family}.'
  const meant = nearest(field, known)
  if (meant !== null) return `${quote(field)} is not a field; did you mean {${meant}}?`
  const fields = Object.keys(KNOWN_FIELDS)
    .map((name) => `{${name}}`)
    .join(', ')
  return `${quote(field)} is not a field. Use one of ${fields}, or declare your own under naming.fields, such as department: {}.`
}

/** Problems of the entries under `naming.fields`. */
export function declarationProblems(
  places: readonly Place[],
  declared: Readonly<Record<string, FieldConstraint>>,
): PatternProblem[] {
  const used = new Set(places.map(({ field }) => field))
  return Object.entries(declared).flatMap(([field, constraint]) => {
    const message = unfitDeclaration(field, constraint, used)
    return message === null ? [] : [{ field, message }]
  })
}

function unfitDeclaration(
  field: string,
  constraint: FieldConstraint,
  used: ReadonlySet<string>,
): string | null {
  if (!used.has(field)) {
    const meant = nearest(field, used)
    return meant === null
      ? `The pattern has no field {${field}}; add it to the pattern, or remove it here.`
      : `The pattern has no field {${field}}; did you mean ${meant}?`
  }
  if (field === 'deliverable')
    return 'The values of {deliverable} are the names under "deliverables"; remove it here.'
  const impossible = impossibleConstraint(constraint)
  return impossible === null ? null : `${field}: ${impossible}`
}
