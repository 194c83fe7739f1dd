import type { Outcome } from '../../rules/contract/outcome.ts'
import { count } from '../../text/quantity.ts'
import { sizeText } from '../../text/size.ts'
import { html, type Markup } from './markup.ts'
import { drawnPortrait, eyesPicture } from './picture.ts'
import type { Portrait } from './portrait.ts'
import { badge, mark, type Open, openOutcomes, RULE_WORDS } from './standing.ts'

/** One portrait: the picture with its lines, what to fix first, what is right folded away. */
export function card(portrait: Portrait): Markup {
  const { id, file, findings, standing } = portrait
  const open = openOutcomes(findings)
  const silent = standing === 'unsure' && !open.some(({ outcome }) => !outcome.advisory)
  return html`<article class="card" id="${id}" aria-labelledby="${id}-name"${data(portrait)}>
<div class="plate">${drawnPortrait(portrait)}</div>
<div class="findings">
<header><p>${badge(standing)}</p><h3 id="${id}-name"><a href="#${id}"><bdi>${file.file}</bdi></a></h3><p class="facts">${facts(portrait)}</p></header>
${silent ? html`<p>No rule could be judged on this file.</p>` : null}
${open.length > 0 ? html`<ul class="open">${open.map(({ standing, outcome }) => finding(standing, outcome))}</ul>` : null}
${eyesPicture(portrait)}
${settled(findings)}
</div>
</article>
`
}

/** What filters and sorting go by. */
export function data({ file, place, findings, standing }: Portrait): Markup {
  const open = openOutcomes(findings).map(({ outcome }) => outcome)
  const words = [file.file, file.person ?? '', ...Object.values(file.fields)]
    .join(' ')
    .normalize('NFC')
    .toLowerCase()
  const figures = file.outcomes.flatMap(({ rule, figure }) => (figure ? [`${rule}=${figure.value}`] : []))
  return html` data-standing="${standing}" data-place="${place}" data-rules="${open.map(({ rule }) => rule).join(' ')}" data-deliverable="${file.deliverable ?? ''}" data-words="${words}" data-figures="${figures.join(' ')}"`
}

function facts({ file }: Portrait): Markup {
  const { deliverable, fields, measurements } = file
  const { widthPx, heightPx } = measurements
  const named = Object.entries(fields).filter(([field]) => field !== 'deliverable' && field !== 'ext')
  const parts = [
    ...(deliverable === null ? [] : [html`<bdi>${deliverable}</bdi>`]),
    ...named.map(([field, value]) => html`${field} <bdi>${value}</bdi>`),
    ...(widthPx && heightPx ? [html`${sizeText({ widthPx, heightPx })}`] : []),
  ]
  return html`${parts.map((part, i) => html`${i > 0 ? ' · ' : ''}${part}`)}`
}

/** One thing to fix or to look at: measured, asked, the fix, and why it is let through where it is. */
export function finding(standing: Open, outcome: Outcome, about: Markup | null = null): Markup {
  const { rule, reason, fix, waiver } = outcome
  return html`<li class="${standing}"><p class="rule">${mark(standing)} <b>${rule}</b> <span>${RULE_WORDS[standing]}</span></p>${about}${numbers(outcome)}<p><bdi>${reason}</bdi></p>${
    fix === undefined ? null : html`<p class="fix"><b>Fix</b> <bdi>${fix}</bdi></p>`
  }${
    waiver
      ? html`<p><b>Exception</b> approved by <bdi>${waiver.approvedBy}</bdi> until ${waiver.until}: <bdi>${waiver.reason}</bdi></p>`
      : null
  }</li>`
}

function numbers({ measured, expected }: Outcome): Markup | null {
  if (measured === null || expected === null) return null
  return html`<dl class="numbers"><div><dt>Measured</dt><dd><bdi>${measured}</bdi></dd></div><div><dt>Asked for</dt><dd><bdi>${expected}</bdi></dd></div></dl>`
}

function settled(outcomes: readonly Outcome[]): Markup | null {
  const passed = outcomes.filter(({ verdict }) => verdict === 'pass')
  const skipped = outcomes.filter(({ verdict }) => verdict === 'skip')
  if (passed.length + skipped.length === 0) return null
  const summary = [
    ...(passed.length > 0 ? [`${count(passed.length, 'rule')} met`] : []),
    ...(skipped.length > 0 ? [`${skipped.length} not applied`] : []),
  ].join(', ')
  const row = ({ rule, verdict, measured, expected, reason }: Outcome) =>
    verdict === 'skip'
      ? html`<tr><th scope="row">${rule}</th><td colspan="2"><bdi>${reason}</bdi></td></tr>`
      : html`<tr><th scope="row">${rule}</th><td><bdi>${measured ?? ''}</bdi></td><td><bdi>${expected ?? ''}</bdi></td></tr>`
  return html`<details><summary>${summary}</summary><table><thead><tr><th scope="col">Rule</th><th scope="col">Measured</th><th scope="col">Asked for</th></tr></thead><tbody>${[...passed, ...skipped].map(row)}</tbody></table></details>`
}
