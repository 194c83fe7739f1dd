const LONGEST = 60

/**
 * Text of a stranger in double quotes, safe to print on a terminal: cut to 60 characters, and whatever is not seen
 * (control, format and unassigned characters, line breaks; Unicode general category C, Zl and Zp) written as `\u{...}`.
 */
export function quote(text: string): string {
  const characters = Array.from(text.slice(0, 2 * LONGEST + 2))
  const shown = characters.slice(0, LONGEST).map(visible).join('')
  return characters.length > LONGEST ? `"${shown}…"` : `"${shown}"`
}

function visible(character: string): string {
  if (!/[\p{C}\p{Zl}\p{Zp}]/u.test(character)) return character
  return `\\u{${(character.codePointAt(0) ?? 0).toString(16).toUpperCase()}}`
}
