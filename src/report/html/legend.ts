import { html, type Markup } from './markup.ts'

const ENTRIES = [
  ['line crown', 'M1 8H31', 'crown'],
  ['line eyes', 'M1 8H31', 'eye line'],
  ['line chin', 'M1 8H31', 'chin'],
  ['line middle', 'M16 2V14', 'midpoint of the eyes'],
  ['box face', 'M4 2H28V14H4Z', 'face'],
  ['box intrusion', 'M4 2H28V14H4Z', 'glare, or not backdrop'],
  ['box crop', 'M4 2H28V14H4Z', 'proposed crop'],
  ['gauge', 'M12 2H20V14H12Z', 'range asked for, at the edge it is read from'],
] as const

/** What the lines on the portraits mean. */
export function legend(): Markup {
  return html`<ul class="legend" aria-label="Lines on the portraits">${ENTRIES.map(
    ([kind, path, words]) =>
      html`<li><svg viewBox="0 0 32 16" aria-hidden="true"><path class="${kind}" d="${path}"/></svg> ${words}</li>`,
  )}</ul>
`
}
