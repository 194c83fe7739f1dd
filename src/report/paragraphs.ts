import stringWidth from 'string-width'
import { sideBySide } from './columns.ts'
import { forTerminal } from './safe.ts'

// Narrower than this nothing reads well.
const NARROWEST = 40
/** Columns of a terminal that does not tell. @choice the usual width, no source. */
const USUAL = 80
// What stands in front of a line's text: blanks, or a word or two with two blanks behind.
const LEAD = /^ *(?:\S+(?: \S+)? {2,})?/

/**
 * Lines of text for a terminal: each made harmless, and wrapped beside what stands in front of it.
 * @param columns width of the terminal, undefined when it does not tell
 */
export function paragraphs(lines: readonly string[], columns: number | undefined): string {
  const width = Math.max(NARROWEST, columns ?? USUAL)
  const wrapped = lines.flatMap((line) => {
    const safe = forTerminal(line)
    const [lead = ''] = LEAD.exec(safe) ?? []
    return sideBySide(0, 0, [
      { text: lead, width: stringWidth(lead) },
      { text: safe.slice(lead.length), width: width - stringWidth(lead) },
    ])
  })
  return wrapped.map((line) => `${line}\n`).join('')
}
