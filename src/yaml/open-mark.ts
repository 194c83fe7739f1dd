/** A bracket or quote that has not been closed, or a color code that a comment sign swallowed inside brackets. */
export interface OpenMark {
  readonly at: number
  readonly mark: '{' | '[' | '"' | "'" | '#'
  /** The color code of `#`; else the mark again. */
  readonly text: string
}

const CLOSING = { '}': '{', ']': '[' } as const

/**
 * Looks through YAML up to an offset for what is still open there. A rough reading for telling the likely cause of a
 * syntax error, not a parser: block texts are read like any other line.
 */
export function openMark(yaml: string, end: number): OpenMark | null {
  const open: OpenMark[] = []
  // The last character that counts on this line: a value begins after one of `:,-[{`, or at the line's start.
  let last = ''
  for (let at = 0; at < end; at++) {
    const character = yaml.charAt(at)
    const valueStart = last === '' || ':,-[{'.includes(last)
    if (character === '\n') {
      last = ''
    } else if (character === '#' && /^$|\s/.test(yaml.charAt(at - 1))) {
      const color = /^#[0-9a-f]{3,8}\b/i.exec(yaml.slice(at, at + 10))
      if (color && open.length > 0) return { at, mark: '#', text: color[0] }
      at = endOfLine(yaml, at) - 1
    } else if ((character === '"' || character === "'") && valueStart) {
      const close = endOfQuote(yaml, at, character)
      if (close === null || close >= end) return { at, mark: character, text: character }
      at = close
      last = character
    } else if ((character === '{' || character === '[') && (valueStart || open.length > 0)) {
      open.push({ at, mark: character, text: character })
      last = character
    } else if (character === '}' || character === ']') {
      if (open.at(-1)?.mark === CLOSING[character]) open.pop()
      last = character
    } else if (character.trim() !== '') {
      last = character
    }
  }
  return open.at(-1) ?? null
}

function endOfQuote(yaml: string, start: number, quote: '"' | "'"): number | null {
  for (let at = start + 1; at < yaml.length; at++) {
    const character = yaml.charAt(at)
    if (quote === '"' && character === '\\') at++
    else if (character === quote) {
      if (quote === '"' || yaml.charAt(at + 1) !== quote) return at
      at++
    }
  }
  return null
}

function endOfLine(yaml: string, at: number): number {
  const end = yaml.indexOf('\n', at)
  return end < 0 ? yaml.length : end
}
