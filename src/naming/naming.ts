import { quote } from '../text/quote.ts'
import type { FieldConstraint } from './naming-field.ts'
import { declarationProblems, fieldProblems, type PatternProblem } from './naming-problems.ts'
import type { Transliteration } from './transliterate.ts'

/** A piece of one folder's or file's name: fixed text, or a named field of one character or more. */
export type NamePiece = { readonly text: string } | { readonly field: string }

/** A parsed naming pattern such as `{deliverable}/{family}-{given}_{staff-id}.jpg`. */
export interface NamingPattern {
  readonly text: string
  /**
   * The folders and, last, the file name: names with their pieces. Fields and fixed texts take turns; texts are in
   * Unicode NFC.
   */
  readonly segments: readonly (readonly NamePiece[])[]
  /** Constraints by field; a field without an entry takes any text. */
  readonly fields: Readonly<Record<string, FieldConstraint>>
  /** How fields are written in the letters A to Z; absent where they are written as they are. */
  readonly transliterate?: Transliteration
}

/**
 * Parses a naming pattern: folders divided by `/`, fields in braces, fixed text between them. There are no regular
 * expressions, so that reading a name takes bounded time and a miss can be explained.
 */
export function parsePattern(
  text: string,
  fields: Readonly<Record<string, FieldConstraint>>,
  deliverables: readonly string[],
  transliterate?: Transliteration,
): { pattern: NamingPattern } | { problems: PatternProblem[] } {
  const problems: PatternProblem[] = []
  const segments: NamePiece[][] = []
  let at = 0
  for (const name of text.split('/')) {
    segments.push(piecesOf(name, at, problems))
    at += name.length + 1
  }
  const places = [...text.matchAll(/\{([^{}/]*)\}/g)].map((match) => ({
    field: match[1] ?? '',
    at: match.index,
  }))
  problems.push(...fieldProblems(places, fields, deliverables), ...declarationProblems(places, fields))
  return problems.length > 0
    ? { problems }
    : { pattern: { text, segments, fields, ...(transliterate && { transliterate }) } }
}

// Bounds the time that reading a hostile name can take.
const MOST_FIELDS = 12

function piecesOf(name: string, start: number, problems: PatternProblem[]): NamePiece[] {
  const problem = (index: number, message: string) => problems.push({ at: start + index, message })
  if (name === '')
    problem(
      0,
      'A folder or file name is missing here; write names between single slashes, with none at the ends.',
    )
  if (name === '.' || name === '..')
    problem(0, `${quote(name)} is not a name; start the pattern at the folder that matters.`)
  if (name.includes('\\'))
    problem(name.indexOf('\\'), 'This is a backslash; write / between folders on every system.')

  const pieces: NamePiece[] = []
  let afterField = false
  for (const match of name.matchAll(/\{([^{}]*)\}|[{}]|[^{}]+/g)) {
    const [piece, field] = match
    if (field === undefined) {
      if (piece === '{') problem(match.index, 'This { is never closed; write a field such as {family}.')
      else if (piece === '}') problem(match.index, 'This } closes nothing; write a field such as {family}.')
      else pieces.push({ text: piece.normalize('NFC') })
    } else {
      if (afterField)
        problem(
          match.index,
          `There is nothing between {${field}} and the field before it, so names can't be split there; put a separator such as _ between them.`,
        )
      pieces.push({ field })
    }
    afterField = field !== undefined
  }
  if (pieces.length > 2 * MOST_FIELDS)
    problem(0, `This name has more than ${MOST_FIELDS} fields; join some of them.`)
  return pieces
}
