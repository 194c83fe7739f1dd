import { html, type Markup } from '../../report/html/markup.ts'

/** Text of several lines, which stay lines; its other control characters are written out. */
export function lines(text: string): readonly Markup[] {
  return text
    .trim()
    .split('\n')
    .map((line, n) => html`${n === 0 ? null : html`<br>`}${line}`)
}
