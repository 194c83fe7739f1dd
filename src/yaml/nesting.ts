import { type CST, Parser } from 'yaml'

/**
 * Where (a character from 0) a YAML text is nested more than `most` deep; null where it is not. The parser that makes
 * values of a text calls itself for each level and ends the process when the stack is full; this looks at its tokens only.
 */
export function nestedBeyond(yaml: string, most: number): number | null {
  const waiting: { token: CST.Token; depth: number }[] = []
  const add = (token: CST.Token | null | undefined, depth: number) => {
    if (token) waiting.push({ token, depth })
  }
  for (const token of new Parser().parse(yaml)) add(token, 0)
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const { token, depth } = next
    if (depth > most) return token.offset
    if (token.type === 'document') add(token.value, depth)
    if (!('items' in token)) continue
    for (const { key, value } of token.items) {
      add(key, depth + 1)
      add(value, depth + 1)
    }
  }
  return null
}
