const LONGEST = 120

/**
 * Text of a stranger (a name, a profile's name, a decoder's words) in double quotes, cut to 120 characters so
 * that it can't drown the sentence. Making it safe to print is the reporters' job, who know where it goes.
 */
export function quoted(text: string): string {
  if (text.length <= LONGEST) return `"${text}"`
  const characters = Array.from(text)
  return characters.length <= LONGEST ? `"${text}"` : `"${characters.slice(0, LONGEST - 1).join('')}…"`
}
