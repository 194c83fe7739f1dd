import { html, Markup } from '../../report/html/markup.ts'

type Shown = 'pass' | 'fail' | 'unsure'

const VERDICT_PATHS: Readonly<Record<Shown, string>> = {
  pass: '<path d="M2.5 8.5l3.7 3.7 7.3-8"/>',
  fail: '<path d="M8 2v7.5M8 13v.6"/>',
  unsure: '<path d="M5 5.4a3 3 0 1 1 4.4 2.7c-1 .5-1.4 1-1.4 2.1M8 13.2v.4"/>',
}

export function verdictMark(verdict: Shown): Markup {
  return mark(`verdict ${verdict}`, VERDICT_PATHS[verdict])
}

/** A sign of 16 x 16 units in a line of text. @param kind its classes */
export function mark(kind: string, paths: string): Markup {
  return html`<svg class="mark ${kind}" viewBox="0 0 16 16" aria-hidden="true">${new Markup(paths)}</svg>`
}

/** The pages' icon: a frame with a check in it. */
export const ICON =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 16 16"><rect width="16" height="16" rx="2" fill="#0d4f2a"/><path d="M3.5 8.5l3 3 6-7" fill="none" stroke="#fff" stroke-width="2"/></svg>'
