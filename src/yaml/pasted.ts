import { quote } from '../text/quote.ts'
import { endOfLine, startOfLine } from './lines.ts'
import type { TextProblem } from './text-problem.ts'

// Word processors, mail and web pages put these in place of what was typed; YAML takes them for letters. An apostrophe
// within a text is one of them, so only a whole text in curly quotes is meant to be in quotes.
const CURLY = /^[“„‘‚]([^“”„]*)[”“’‘]$/u
/** Spaces that are no spaces of YAML: Unicode's category Zs without U+0020. */
const ODD_SPACE = /[\u00A0\u1680\u2000-\u200A\u202F\u205F\u3000]/
/** Where a key or a value may begin. */
const START = '(?:^|[:,{[-]) *'

const SPACE_MESSAGE =
  'This is no usual space, though it looks like one (pasted from a web page or a letter?); type it anew with the space bar.'

/** What is wrong with a key or a text without quotes that was pasted, its place counted from the text's start; null when nothing is. */
export function pastedProblem(text: string): TextProblem | null {
  const within = CURLY.exec(text)?.[1]
  if (within !== undefined) return { at: 0, message: curlyMessage(within) }
  // A colon with such a space behind it ends no key.
  const at =
    /^[\w-]+:(?=\s)/.exec(text)?.[0].length ?? (text === text.trimStart() ? text.trimEnd().length : 0)
  return ODD_SPACE.test(text.charAt(at)) ? { at, message: SPACE_MESSAGE } : null
}

/** The pasted quote or space on the line of a syntax error, which most likely caused it; null when there is none. */
export function pastedCause(yaml: string, at: number): TextProblem | null {
  const start = startOfLine(yaml, at)
  const line = yaml.slice(start, endOfLine(yaml, start))
  const space = new RegExp(`${START}${ODD_SPACE.source}`).exec(line)
  if (space) return { at: start + space.index + space[0].length - 1, message: SPACE_MESSAGE }
  const curly = new RegExp(`${START}[“„‘‚]([^”“’‘]{0,200})[”“’‘]`, 'u').exec(line)
  if (!curly) return null
  return { at: start + curly.index + curly[0].search(/[“„‘‚]/), message: curlyMessage(curly[1] ?? '') }
}

function curlyMessage(text: string): string {
  return `Curly quotes are letters like any other in YAML; write straight ones: ${quote(text)}.`
}
