/** What a page asks for. */
export type Wish =
  | { readonly do: 'sits'; readonly sitter: string | null }
  | { readonly do: 'joins'; readonly frame: string; readonly sitter: string | null }
  | { readonly do: 'pick'; readonly sitter: string; readonly frame: string | null }
  | { readonly do: 'undo' }

/** As it stands on a button, which sends it. */
export function wishText(wish: Wish): string {
  return JSON.stringify(wish)
}

/** What was sent, when it is a wish; null for anything else. */
export function wishOf(value: unknown): Wish | null {
  if (typeof value !== 'object' || value === null) return null
  const has = (key: string, orNull = false) => {
    const one: unknown = Reflect.get(value, key)
    return typeof one === 'string' || (orNull && one === null)
  }
  const kind: unknown = Reflect.get(value, 'do')
  const isWish =
    kind === 'undo' ||
    (kind === 'sits' && has('sitter', true)) ||
    (kind === 'joins' && has('frame') && has('sitter', true)) ||
    (kind === 'pick' && has('sitter') && has('frame', true))
  return isWish ? (value as Wish) : null
}
