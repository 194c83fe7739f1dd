import { data } from './card.ts'
import { html, type Markup } from './markup.ts'
import type { Portrait } from './portrait.ts'
import { badge, openOutcomes } from './standing.ts'

/** All portraits of a report of several pages, a line each, leading to their cards. */
export function contents(portraits: readonly Portrait[]): Markup {
  return html`<section class="all" aria-labelledby="all"><h2 id="all">All portraits</h2>
<ul class="cards lines">
${portraits.map(line)}</ul></section>
`
}

function line(portrait: Portrait): Markup {
  const { id, href, file, findings, standing } = portrait
  const open = openOutcomes(findings).map(({ outcome }) => outcome)
  return html`<li class="card" id="${id}"${data(portrait)}><h3><a href="${href}"><bdi>${file.file}</bdi></a></h3> ${badge(standing)} <span>${open.map(({ rule }) => rule).join(', ')}</span></li>
`
}
