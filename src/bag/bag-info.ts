import wrapAnsi from 'wrap-ansi'

export const BAG_INFO = 'bag-info.txt'

/** Labels and values in their order; a label may come several times. */
export type BagInfo = readonly (readonly [label: string, value: string])[]

/**
 * Reads `bag-info.txt` (RFC 8493, 2.2.2): "Label: value", a value going on in lines that begin with a space or tab. Drafts
 * allowed spaces before the colon.
 * @returns what could be read, and the numbers of lines that could not, from 1
 */
export function readBagInfo(
  lines: readonly string[],
  isFinal: boolean,
): { info: [string, string][]; unread: number[] } {
  const info: [string, string][] = []
  const unread: number[] = []
  const form = isFinal
    ? /^([^\s:](?:[^:]*[^\s:])?):[ \t]?(.*)$/
    : /^([^\s:](?:[^:]*?[^\s:])?)[ \t]*:[ \t]*(.*)$/
  for (const [index, line] of lines.entries()) {
    const last = info.at(-1)
    if (/^[ \t]/.test(line) && last) {
      last[1] = `${last[1]} ${line.trim()}`
      continue
    }
    const [, label, value = ''] = form.exec(line) ?? []
    if (label !== undefined) info.push([label, value.trim()])
    else if (line.trim() !== '') unread.push(index + 1)
  }
  return { info, unread }
}

/** Most characters of a line. @source RFC 8493, 2.2.2: 79, the indent of two included */
const LONGEST = 77

/** The text of `bag-info.txt`. Line breaks in values become spaces. */
export function bagInfoText(info: BagInfo): string {
  const lines = info.map(([label, value]) => `${label}: ${value.replace(/\s+/g, ' ').trim()}`)
  return lines.map((line) => `${wrapAnsi(line, LONGEST).replaceAll('\n', '\n  ')}\n`).join('')
}

/** The last value of a label, whatever its letter case; null without one. */
export function infoValue(info: BagInfo, label: string): string | null {
  const wanted = label.toLowerCase()
  return info.findLast(([name]) => name.toLowerCase() === wanted)?.[1] ?? null
}
