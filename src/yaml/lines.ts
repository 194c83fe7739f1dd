// Lines of a text, found from an offset (from 0, UTF-16 units) in them.

export function startOfLine(yaml: string, at: number): number {
  return yaml.lastIndexOf('\n', at - 1) + 1
}

/** Where the text of a line begins, after its indentation. */
export function firstOfLine(yaml: string, at: number): number {
  const start = startOfLine(yaml, at)
  return start + yaml.slice(start, endOfLine(yaml, start)).search(/\S|$/)
}

export function endOfLine(yaml: string, at: number): number {
  const end = yaml.indexOf('\n', at)
  return end < 0 ? yaml.length : end
}

/** The rest of a line from an offset on, without a comment and spaces at its end. */
export function restOfLine(yaml: string, at: number): string {
  const line = yaml.slice(at, endOfLine(yaml, at))
  // A comment begins at a number sign after a space. No pattern for the spaces: it would take the square of their number.
  let comment = line.indexOf('#', 1)
  while (comment > 0 && !/\s/.test(line.charAt(comment - 1))) comment = line.indexOf('#', comment + 1)
  return (comment < 0 ? line : line.slice(0, comment)).trimEnd()
}

/** Where the next line that is not empty begins, after its indentation; null when there is none. */
export function nextLine(yaml: string, at: number): number | null {
  const found = /\S/.exec(yaml.slice(endOfLine(yaml, at)))
  return found ? endOfLine(yaml, at) + found.index : null
}
