import stringWidth from 'string-width'
import wrapAnsi from 'wrap-ansi'
import { glued, NO_BREAK } from '../text/quantity.ts'

export interface Cell {
  readonly text: string
  /** Width in terminal columns; the text is wrapped to it. */
  readonly width: number
  readonly paint?: (line: string) => string
}

/** Cells side by side, each wrapped to its width (display width: wide and combining characters count as shown). */
export function sideBySide(indent: number, gap: number, cells: readonly Cell[]): string[] {
  const columns = cells.map((cell) => ({ ...cell, lines: wrapped(cell.text, cell.width) }))
  const height = Math.max(...columns.map(({ lines }) => lines.length))
  return Array.from({ length: height }, (_, row) => {
    const parts = columns.map(({ lines, width, paint }) => {
      const line = lines[row] ?? ''
      const padding = ' '.repeat(Math.max(0, width - widthOf(line)))
      return `${paint && line !== '' ? paint(line) : line}${padding}`
    })
    return `${' '.repeat(indent)}${parts.join(' '.repeat(gap))}`.trimEnd()
  })
}

/**
 * Lines of at most `width` columns; words are broken only when one alone is too long. What fits is left untouched:
 * wrapping composes accents (NFC), and a file's name should be shown as it is stored where that can be done.
 */
function wrapped(text: string, width: number): string[] {
  if (widthOf(text) <= width) return [text]
  return wrapAnsi(glued(text), width, { hard: true }).replaceAll(NO_BREAK, ' ').split('\n')
}

const PLAIN = /^[ -~]*$/

/** In columns. Most of a report is printable ASCII, a column each, which needs no look at clusters of characters. */
function widthOf(text: string): number {
  return PLAIN.test(text) ? text.length : stringWidth(text)
}
