import { median } from '../../numbers/quantile.ts'
import { byCodePoint } from '../../text/code-points.ts'
import { html, type Markup } from './markup.ts'
import { frameOf, pictureId } from './picture.ts'
import type { Portrait } from './portrait.ts'
import { mark, WORDS } from './standing.ts'

/** The set side by side, a row a deliverable: a drift of the eyes shows against the line drawn through. */
export function strips(portraits: readonly Portrait[], whole: readonly Portrait[]): Markup | null {
  const groups = byDeliverable(portraits)
  if (groups.length === 0) return null
  const ofWhole = new Map(byDeliverable(whole))
  return html`<section class="set" aria-labelledby="set"><h2 id="set">The set side by side</h2>
<p class="small">All at the same height, sorted by path. The long line is the median eye line of the set; the short lines at the sides are each portrait’s own.</p>
${groups.map(([deliverable, members]) => strip(deliverable, members, medianEyeLine(ofWhole.get(deliverable) ?? members), groups.length > 1 || deliverable !== ''))}
</section>
`
}

function byDeliverable(portraits: readonly Portrait[]): [string, Portrait[]][] {
  const groups = new Map<string, Portrait[]>()
  const shown = portraits.filter(({ pictures }) => pictures)
  for (const portrait of shown.toSorted((a, b) => byCodePoint(a.file.file, b.file.file))) {
    const key = portrait.file.deliverable ?? ''
    groups.set(key, [...(groups.get(key) ?? []), portrait])
  }
  return [...groups].sort(([a], [b]) => byCodePoint(a, b))
}

function strip(
  deliverable: string,
  members: readonly Portrait[],
  setEyeLine: number | null,
  named: boolean,
): Markup {
  const title = deliverable === '' ? 'unknown deliverable' : deliverable
  return html`${named ? html`<h3><bdi>${title}</bdi></h3>` : null}<div class="strip">${members.map((member) => place(member, setEyeLine))}</div>`
}

function place(portrait: Portrait, setEyeLine: number | null): Markup {
  const { widthPx, heightPx } = frameOf(portrait)
  const own = eyeLine(portrait)
  const lines = [
    ...(setEyeLine === null
      ? []
      : [
          html`<path class="halo" d="M0 ${setEyeLine * heightPx}H${widthPx}"/><path class="line set-eyes" d="M0 ${setEyeLine * heightPx}H${widthPx}"/>`,
        ]),
    ...(own === null
      ? []
      : [
          html`<path class="halo" d="M0 ${own * heightPx}h${widthPx * 0.14}M${widthPx} ${own * heightPx}h-${widthPx * 0.14}"/><path class="line eyes" d="M0 ${own * heightPx}h${widthPx * 0.14}M${widthPx} ${own * heightPx}h-${widthPx * 0.14}"/>`,
        ]),
  ]
  return html`<a class="place ${portrait.standing}" href="#${portrait.id}" data-for="${portrait.id}" aria-label="${portrait.file.file}: ${WORDS[portrait.standing]}"><svg viewBox="0 0 ${widthPx} ${heightPx}" aria-hidden="true"><use href="#${pictureId(portrait)}"/>${lines}</svg>${mark(portrait.standing)}</a>`
}

function eyeLine({ file }: Portrait): number | null {
  const pct = file.measurements.head?.eyeLinePct
  return pct === null || pct === undefined ? null : pct / 100
}

function medianEyeLine(members: readonly Portrait[]): number | null {
  const all = members.flatMap((member) => eyeLine(member) ?? [])
  return all.length === 0 ? null : median(all)
}
