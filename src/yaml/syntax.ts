import type { YAMLError } from 'yaml'
import { quote } from '../text/quote.ts'
import { layoutCause, quotedBraces } from './layout-cause.ts'
import { endOfLine, firstOfLine, restOfLine, startOfLine } from './lines.ts'
import { type OpenMark, openMark } from './open-mark.ts'
import { pastedCause } from './pasted.ts'
import type { TextProblem } from './text-problem.ts'

// A spec with more faults than this is better fixed in turns; each one's cause is looked for through the whole text.
const MOST = 20

/** What the parser's errors mean to the writer of the spec: one problem a line, the follow-ups of a cause left out. */
export function syntaxProblems(yaml: string, errors: readonly YAMLError[]): TextProblem[] {
  const problems: TextProblem[] = []
  const told = new Set<number>()
  for (const error of firstOfTheirLine(yaml, errors)) {
    const problem = problemOf(yaml, error)
    const line = startOfLine(yaml, problem.at)
    if (!told.has(line)) problems.push(problem)
    told.add(line)
    // Nothing after an unclosed quote or a swallowed bracket is read as it was meant.
    if (problem.last) break
  }
  return problems
}

/** The first error of each line, and of tabs the first one only: the sentence on tabs is on all of them. */
function firstOfTheirLine(yaml: string, errors: readonly YAMLError[]): YAMLError[] {
  const first: YAMLError[] = []
  let end = -1
  let tabs = false
  for (const error of [...errors].sort((a, b) => a.pos[0] - b.pos[0])) {
    if (error.pos[0] <= end || (tabs && error.code === 'TAB_AS_INDENT')) continue
    if (first.length === MOST) break
    first.push(error)
    end = endOfLine(yaml, error.pos[0])
    tabs ||= error.code === 'TAB_AS_INDENT'
  }
  return first
}

interface Cause extends TextProblem {
  readonly last?: boolean
}

function problemOf(yaml: string, error: YAMLError): Cause {
  const [at] = error.pos
  switch (error.code) {
    case 'TAB_AS_INDENT':
      return {
        at,
        message:
          'This line is indented with a tab; YAML takes spaces only. Replace each tab with two spaces, here and wherever else there are tabs.',
      }
    case 'MULTIPLE_DOCS':
      return {
        at,
        message:
          'A second document begins here; this file must be one document. Remove the line "---", or move what follows to another file.',
      }
    case 'TAG_RESOLVE_FAILED':
    case 'BAD_SCALAR_START':
      return {
        at,
        message: `A text can't begin with ${quote(yaml.charAt(at))} without quotes; put it in quotes: ${quote(restOfLine(yaml, at))}.`,
      }
    case 'BAD_DQ_ESCAPE':
      return {
        at,
        message: `${quote(yaml.slice(at, at + 2))} has no meaning within double quotes; write \\\\ for a backslash, or put the text in single quotes.`,
      }
    case 'NON_STRING_KEY':
      return {
        at,
        message:
          'A key must be a plain word here, not a list, a mapping or a number; put the word before the colon.',
      }
    default: {
      const cause = openCause(yaml, at) ?? layoutCause(yaml, error)
      const pasted = pastedCause(yaml, cause.at)
      return pasted ? { ...pasted, last: true } : cause
    }
  }
}

function openCause(yaml: string, at: number): Cause | null {
  if (/[}\]]/.test(yaml.charAt(at)) && firstOfLine(yaml, at) === at)
    return {
      at,
      message: `This ${yaml.charAt(at)} is too far left; put at least two spaces before it.`,
    }
  const mark = openMark(yaml, at)
  return mark === null ? null : { at: mark.at, message: openSentence(yaml, mark), last: true }
}

function openSentence(yaml: string, { at, mark, text }: OpenMark): string {
  switch (mark) {
    case '#':
      return `${text} without quotes is a comment in YAML, and so is the rest of its line; put it in quotes: "${text}".`
    case '"':
    case "'":
      return `The text that begins here is never closed; put ${mark} at its end.`
    default: {
      const line = restOfLine(yaml, at)
      if (/[}\]]/.test(line) && !/[}\]]$/.test(line)) return quotedBraces(line)
      if (/[\w"'] +[\w-]+:/.test(line))
        return `Two settings within ${mark} have no comma between them; write, for example, { min: 6, max: 12 }.`
      return `The ${mark} here is not closed; put ${mark === '{' ? '}' : ']'} where it ends, and indent the lines inside it.`
    }
  }
}
