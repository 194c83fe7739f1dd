import { isMiss } from '../../judge/verdict.ts'
import { html, type Markup } from '../../report/html/markup.ts'
import type { DeliveryOutcome } from '../../rules/contract/delivery-outcome.ts'
import type { Outcome } from '../../rules/contract/outcome.ts'
import { listed } from '../../text/quantity.ts'
import type { Incoming } from '../incoming.ts'

/** Most files and findings over the whole delivery that are listed. @choice the report has them all, with pictures; no source */
const MOST = 40
/** So many are shown at once, and more when somebody asks: what is to be answered and signed stays near. @choice no source */
const OPEN = 4

/** What is to be put right, file by file. */
export function findings(one: Incoming | null): Markup {
  const report = one?.stage.at === 'received' ? one.stage.received.receipt.report : null
  if (!report) return html``
  const whole = report.delivery.outcomes.filter(counts)
  const files = report.files
    .map(({ file, outcomes }) => ({ file, outcomes: outcomes.filter(counts) }))
    .filter(({ outcomes }) => outcomes.length > 0)
  if (whole.length + files.length === 0) return html``
  const items = [
    ...whole.map(aboutDelivery),
    ...files.map(
      ({ file, outcomes }) => html`<li><h3><bdi>${file}</bdi></h3><ul>${outcomes.map(line)}</ul></li>`,
    ),
  ]
  return html`<h2>What was found</h2><ul class="files">${items.slice(0, OPEN)}</ul>${rest(items.slice(OPEN))}`
}

function rest(items: readonly Markup[]): Markup | null {
  if (items.length === 0) return null
  const shown = items.slice(0, MOST)
  const more = items.length - shown.length
  const end = more > 0 ? html`<p>And ${more} more, in the full report.</p>` : null
  return html`<details><summary>And ${items.length} more</summary><ul class="files">${shown}</ul>${end}</details>`
}

function counts(outcome: Outcome): boolean {
  return isMiss(outcome) && !outcome.advisory
}

function aboutDelivery(outcome: DeliveryOutcome): Markup {
  const { people, files } = outcome
  const about = listed(people.length > 0 ? people : files)
  return html`<li><h3>${about === '' ? 'The delivery as a whole' : html`<bdi>${about}</bdi>`}</h3><ul>${line(outcome)}</ul></li>`
}

function line({ rule, verdict, reason, fix }: Outcome): Markup {
  return html`<li class="${verdict}"><span class="word">${verdict}</span> <b>${rule}</b>: <bdi>${reason}</bdi>${fix === undefined ? null : html` <bdi class="fix">${fix}</bdi>`}</li>`
}
