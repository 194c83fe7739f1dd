import { forHtml } from '../safe.ts'

/** HTML that is safe to stand in a page: written by us, with everything else escaped. */
export class Markup {
  readonly text: string

  /** @param text HTML in which no text of a stranger stands unescaped */
  constructor(text: string) {
    this.text = text
  }
}

export type Part = Markup | string | number | null | readonly Part[]

/** A template for HTML: strings put into it are escaped, markup stays, lists are joined, null is nothing. */
export function html(literals: TemplateStringsArray, ...parts: readonly Part[]): Markup {
  return new Markup(literals.map((literal, i) => literal + textOf(parts[i] ?? null)).join(''))
}

function textOf(part: Part): string {
  if (part === null) return ''
  if (part instanceof Markup) return part.text
  if (typeof part === 'object') return part.map(textOf).join('')
  return forHtml(String(part))
}
