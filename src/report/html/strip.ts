import { win32 } from 'node:path'
import type { Matrix } from '../../judge/matrix.ts'
import { isMiss } from '../../judge/verdict.ts'
import { median } from '../../numbers/quantile.ts'
import { byCodePoint } from '../../text/code-points.ts'
import { fewOf } from '../short-list.ts'
import { html, type Markup } from './markup.ts'
import { frameOf, smallPicture, usedPicture } from './picture.ts'
import type { Portrait } from './portrait.ts'
import { mark, openOutcomes, WORDS } from './standing.ts'

/** The set to be shown, and where it stands. */
export interface ShownSet {
  readonly portraits: readonly Portrait[]
  /** All of the delivery, whose median the long line is. */
  readonly whole: readonly Portrait[]
  /** Who has what, to tell who is missing; null where that is told elsewhere. */
  readonly matrix: Matrix | null
  /** Whether the cards are on other pages, and their pictures with them. */
  readonly cardsElsewhere: boolean
}

/** The set side by side, what fails written on it, a row a deliverable: a drift of the eyes shows against the line drawn through. */
export function strips(set: ShownSet): Markup | null {
  const groups = byDeliverable(set.portraits)
  if (groups.length === 0) return null
  const ofWhole = new Map(byDeliverable(set.whole))
  const named = groups.length > 1 || groups.some(([deliverable]) => deliverable !== '')
  const rows = groups.map(([deliverable, members]) => {
    const title = deliverable === '' ? 'Unknown deliverable' : deliverable
    const eyes = medianEyeLine(ofWhole.get(deliverable) ?? members)
    return html`${named ? html`<h3><bdi>${title}</bdi></h3>` : null}<div class="strip">${members.map((member) => place(member, eyes, set.cardsElsewhere))}</div>${without(deliverable, set.matrix)}
`
  })
  return html`<section class="set" aria-labelledby="set"><h2 id="set">The set side by side</h2>
${rows}<p class="small">All at the same height, sorted by path; written on each, the rules that it misses. The long line is the median eye line of the set, the short lines at the sides are each portrait’s own.</p>
</section>
`
}

function byDeliverable(portraits: readonly Portrait[]): [string, Portrait[]][] {
  const groups = new Map<string, Portrait[]>()
  for (const portrait of portraits.toSorted((a, b) => byCodePoint(a.file.file, b.file.file))) {
    const key = portrait.file.deliverable ?? ''
    const group = groups.get(key)
    if (group) group.push(portrait)
    else groups.set(key, [portrait])
  }
  return [...groups].sort(([a], [b]) => byCodePoint(a, b))
}

/** Of whom a portrait is missing in this row. */
function without(deliverable: string, matrix: Matrix | null): Markup | null {
  if (!matrix) return null
  const column = Math.max(0, matrix.deliverables.indexOf(deliverable))
  const missing = matrix.rows.filter(({ cells }) => cells[column]?.state === 'missing')
  if (missing.length === 0 || (deliverable === '' && matrix.deliverables.length > 0)) return null
  return html`<p class="missing">${mark('missing')} No portrait of <bdi>${fewOf(missing.map(({ person }) => person))}</bdi></p>`
}

// Of more there is no room on a picture.
const MOST_TOLD = 3

function place(portrait: Portrait, setEyeLine: number | null, elsewhere: boolean): Markup {
  const { id, href, file, findings, standing } = portrait
  const { widthPx, heightPx } = frameOf(portrait)
  const own = eyeLine(portrait)
  const y = (share: number) => Math.round(share * heightPx * 10) / 10
  const side = Math.round(widthPx * 0.14)
  const across = (path: string, kind: string) =>
    html`<path class="halo" d="${path}"/><path class="line ${kind}" d="${path}"/>`
  const lines = [
    setEyeLine === null ? null : across(`M0 ${y(setEyeLine)}H${widthPx}`, 'set-eyes'),
    own === null ? null : across(`M0 ${y(own)}h${side}M${widthPx} ${y(own)}h-${side}`, 'eyes'),
  ]
  const missed = openOutcomes(findings).filter(({ outcome }) => isMiss(outcome))
  const rules = [...new Map(missed.map(({ standing: by, outcome }) => [outcome.rule, by]))]
  const more = rules.length - MOST_TOLD
  const told = rules.slice(0, more === 1 ? MOST_TOLD + 1 : MOST_TOLD)
  return html`<a class="place" href="${elsewhere ? href : `#${id}`}" data-for="${id}"><span class="sr">${WORDS[standing]}: </span><span class="frame"><svg viewBox="0 0 ${widthPx} ${heightPx}" aria-hidden="true">${elsewhere ? smallPicture(portrait) : usedPicture(portrait)}${lines}</svg>${
    told.length === 0
      ? null
      : html`<span class="told">${told.map(([rule, by]) => html`<span class="${by}">${rule} </span>`)}${more > 1 ? html`<span>and ${more} more </span>` : null}</span>`
  }</span><span class="name ${standing}">${mark(standing)} <bdi>${file.person ?? win32.basename(file.file)}</bdi></span></a>`
}

function eyeLine({ file }: Portrait): number | null {
  const pct = file.measurements.head?.eyeLinePct
  return pct === null || pct === undefined ? null : pct / 100
}

function medianEyeLine(members: readonly Portrait[]): number | null {
  const all = members.flatMap((member) => eyeLine(member) ?? [])
  return all.length === 0 ? null : median(all)
}
