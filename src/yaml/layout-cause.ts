import type { YAMLError } from 'yaml'
import { quote } from '../text/quote.ts'
import { endOfLine, firstOfLine, nextLine, restOfLine, startOfLine } from './lines.ts'
import type { TextProblem } from './text-problem.ts'

/** Causes that lie in how lines and colons are laid out. */
export function layoutCause(yaml: string, { code, pos: [at] }: YAMLError): TextProblem {
  const line = yaml.slice(startOfLine(yaml, at), endOfLine(yaml, at))
  const value = /^\s*(?:- +)?[\w-]+: +([{[].*)$/.exec(line)?.[1]
  if (/[}\]]/.test(yaml.charAt(at)))
    return { at, message: `This ${yaml.charAt(at)} closes nothing; remove it.` }
  if (/["'] *$/.test(yaml.slice(startOfLine(yaml, at), at)))
    return {
      at,
      message: `${quote(restOfLine(yaml, at))} comes after the closing quote; put the whole text in quotes.`,
    }
  if (code === 'UNEXPECTED_TOKEN' && value && !/[}\]]$/.test(value.trimEnd()))
    return { at, message: quotedBraces(value.trimEnd()) }
  if (code === 'BAD_INDENT')
    return {
      at: firstOfLine(yaml, at),
      message:
        'The indentation of this line matches no line above it; settings that belong together begin in the same column, two spaces to the right of their key.',
    }
  if (code === 'BLOCK_AS_IMPLICIT_KEY' || code === 'MULTILINE_IMPLICIT_KEY') return keyCause(yaml, at)
  if (code === 'DUPLICATE_KEY') return { at, message: 'This key appears twice; keep one.' }
  return {
    at,
    message: `The YAML can't be read starting at ${quote(restOfLine(yaml, at).slice(0, 20))}; look for a missing colon, quote or bracket in this line and the one above.`,
  }
}

function keyCause(yaml: string, at: number): TextProblem {
  const rest = restOfLine(yaml, at)
  if (rest.startsWith('- '))
    return {
      at,
      message:
        'A list item appears where a key is expected; put it below the key of its list, indented by two spaces.',
    }
  if (/:\s/.test(rest)) return { at, message: `A text with a colon in it must be in quotes: ${quote(rest)}.` }
  const next = nextLine(yaml, at)
  const isValue = at > firstOfLine(yaml, at)
  if (isValue && next !== null)
    return {
      at: next,
      message:
        'This line is indented as if it belonged to the line above, which already has its value; begin it in the same column as that line.',
    }
  return {
    at: firstOfLine(yaml, at),
    message: `${quote(rest)} has no colon; a setting is a key, a colon, a space and a value.`,
  }
}

/** What to do about a plain text that begins with a bracket. */
export function quotedBraces(text: string): string {
  return `A text that begins with ${text.charAt(0)} must be in quotes: ${quote(text)}.`
}
