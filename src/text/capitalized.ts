/** A text with a capital at its beginning, to stand as a sentence. */
export function capitalized(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
