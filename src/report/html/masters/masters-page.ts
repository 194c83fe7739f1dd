import { sizeText } from '../../../text/size.ts'
import { html, type Markup } from '../markup.ts'
import { page } from '../page.ts'
import { dayText } from '../sign-off.ts'
import { mark } from '../standing.ts'
import { croppedMaster, lineOf } from './crop-boxes.ts'
import type { ShownFile, ShownMaster } from './shown-master.ts'

/** What a page of masters says at its top. */
export interface MastersFacts {
  readonly spec: { readonly brand: string; readonly version: number }
  /** The deliverables of the spec, in its order. */
  readonly deliverables: readonly string[]
  /** What was done, or would be, in a sentence. */
  readonly summary: string
  readonly at: Date
}

const WORDS: Readonly<Record<ShownFile['state'], string>> = {
  made: 'Made',
  kept: 'Unchanged',
  planned: 'To make',
  'held-back': 'Held back',
  refused: 'Not made',
  question: 'Question',
}

/** How states look, the worst first. */
const LOOKS = {
  question: 'unsure',
  'held-back': 'fail',
  refused: 'fail',
  planned: 'pass',
  made: 'pass',
  kept: 'pass',
} as const satisfies Readonly<Record<ShownFile['state'], string>>

/** Each master with the crops that are made of it, those with something to do first; a page that needs nothing from elsewhere. */
export function mastersPage(
  masters: readonly ShownMaster[],
  { spec, deliverables, summary, at }: MastersFacts,
): string {
  const sorted = [...masters.filter((one) => !isFine(one)), ...masters.filter(isFine)]
  const look = masters.every(isFine) ? 'pass' : 'fail'
  const body = html`<header class="verdict ${look}">
<p class="spec"><bdi>${spec.brand}</bdi> · brand spec version ${spec.version} · ${dayText(at)}</p>
<h1>${mark(look)} <span>${summary}</span></h1>
</header>
<section aria-labelledby="masters"><h2 id="masters">Master by master</h2>
${deliverables.length === 0 ? null : legend(deliverables)}<div class="cards">
${sorted.map((master, index) => card(master, index, deliverables))}</div></section>
`
  return page(`${summary} ${spec.brand}`, body, null)
}

function isFine({ files }: ShownMaster): boolean {
  return files.every(({ state }) => LOOKS[state] === 'pass')
}

function legend(deliverables: readonly string[]): Markup {
  return html`<ul class="legend" aria-label="Crops on the masters">${deliverables.map(
    (name) => html`<li>${swatch(name, deliverables)} <bdi>${name}</bdi></li>`,
  )}</ul>
`
}

function swatch(deliverable: string | null, deliverables: readonly string[]): Markup {
  return html`<svg viewBox="0 0 32 16" aria-hidden="true"><path class="box ${lineOf(deliverable, deliverables)}" d="M4 2H28V14H4Z"/></svg>`
}

function card(master: ShownMaster, index: number, deliverables: readonly string[]): Markup {
  const { file, size, files } = master
  const id = `master-${index + 1}`
  return html`<article class="card" id="${id}" aria-labelledby="${id}-name">
<div class="plate">${croppedMaster(master, deliverables)}</div>
<div class="findings">
<header><h3 id="${id}-name"><a href="#${id}"><bdi>${file}</bdi></a></h3>${size ? html`<p class="facts">${sizeText(size)}</p>` : null}</header>
<ul class="open">${files.map((one) => item(one, deliverables))}</ul>
</div>
</article>
`
}

function item(one: ShownFile, deliverables: readonly string[]): Markup {
  const { state, deliverable, file, corners, facts, reasons } = one
  const look = LOOKS[state]
  return html`<li class="${look}"><p class="rule">${mark(look)} <b>${WORDS[state]}</b>${deliverable === null ? null : html` <span><bdi>${deliverable}</bdi></span>`}${corners.length > 0 && deliverables.length > 0 ? html` ${swatch(deliverable, deliverables)}` : null}</p>${
    file === null ? null : html`<p><bdi>${file}</bdi></p>`
  }${facts.length === 0 ? null : html`<p class="facts">${facts.join(' · ')}</p>`}${reasons.map((reason) => html`<p><bdi>${reason}</bdi></p>`)}</li>`
}
