import type { Report } from '../../judge/report.ts'
import { count } from '../../text/quantity.ts'
import { extendsNote, leftSentence, partialSentence, verdictSentence } from '../sentences.ts'
import { peopleSentence, type RuleLine, ruleLines } from '../top.ts'
import { html, type Markup } from './markup.ts'
import type { Portrait } from './portrait.ts'
import { shownSpec } from './shown-spec.ts'
import { dayText } from './sign-off.ts'
import { mark, STANDINGS, type Standing } from './standing.ts'

const NOUNS: Readonly<Record<Standing, readonly [one: string, many: string]>> = {
  fail: ['fails', 'fail'],
  unsure: ['is unsure', 'are unsure'],
  warning: ['passes with a warning', 'pass with a warning'],
  pass: ['passes', 'pass'],
}

/** The verdict in a sentence, the totals, who is missing, and which rules are missed most. */
export function summary(report: Report, portraits: readonly Portrait[], at: Date): Markup {
  const spec = shownSpec(report.spec)
  const people = peopleSentence(report)
  const notes = [partialSentence(report), leftSentence(report)].filter((note) => note !== null)
  return html`<header class="verdict ${report.verdict}">
<p class="spec"><bdi>${spec.brand}</bdi> · brand spec version ${spec.version} (<bdi>${spec.file}</bdi>)${extendsNote(spec)} · checked on ${dayText(at)}</p>
<h1>${mark(report.verdict)} <span>${verdictSentence(report)}</span></h1>
<div class="at-once"><div>
<ul class="tally">${STANDINGS.map((standing) => tally(standing, portraits))}</ul>
${people === null ? null : html`<p><bdi>${people}</bdi></p>`}
${notes.length === 0 ? null : html`<p class="small">${notes.join(' ')}</p>`}
</div>${missed(ruleLines(report))}</div>
</header>
`
}

function tally(standing: Standing, portraits: readonly Portrait[]): Markup | null {
  const n = portraits.filter((portrait) => portrait.standing === standing).length
  if (n === 0) return null
  return html`<li class="${standing}">${mark(standing)} <b>${n}</b> ${NOUNS[standing][n === 1 ? 0 : 1]}</li>`
}

// The pictures should be in sight below.
const MOST_RULES = 3

function missed(lines: readonly RuleLine[]): Markup | null {
  if (lines.length === 0) return null
  const others = lines.slice(MOST_RULES)
  return html`<section class="missed" aria-labelledby="missed"><h2 id="missed">Rules missed, by number of portraits</h2>
<ul>${lines.slice(0, MOST_RULES).map(missedRule)}</ul>${
    others.length === 0
      ? null
      : html`<details><summary>${count(others.length, 'more rule')}</summary><ul>${others.map(missedRule)}</ul></details>`
  }</section>`
}

function missedRule({ rule, files, share, failing, note }: RuleLine): Markup {
  return html`<li><b>${rule}</b> <span class="count">${files}</span><svg viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true"><rect class="whole" width="100" height="6"/><rect class="unsure" width="${Math.round(share * 100)}" height="6"/><rect width="${Math.round(failing * 100)}" height="6"/></svg><button type="button" data-rule="${rule}" aria-label="Show those that miss ${rule}" hidden>Show</button>${note === '' ? null : html`<em>${note}</em>`}</li>`
}
