import { html, type Markup } from '../../report/html/markup.ts'
import type { Deliveries } from '../deliveries.ts'
import type { Incoming } from '../incoming.ts'
import { wishText } from '../wish.ts'

/** All deliveries, when there are several, and what is to be known of the folder that they are put into. */
export function deliveryList({ all, shown }: Deliveries, notes: readonly string[]): Markup {
  const told =
    notes.length === 0
      ? null
      : html`<ul class="notes">${notes.map((one) => html`<li><bdi>${one}</bdi></li>`)}</ul>`
  if (all.length < 2) return html`${told}`
  const item = (one: Incoming) =>
    html`<li><button id="show-${one.id}" type="button" aria-pressed="${one === shown ? 'true' : 'false'}" data-do="${wishText({ do: 'show', delivery: one.id })}"><b><bdi>${one.name}</bdi></b> <span class="small">${standing(one)}</span></button></li>`
  return html`<h2>Deliveries</h2><ul data-row>${all.map(item)}</ul>${told}`
}

/** How far a delivery is, in a few words. */
function standing({ stage, signed }: Incoming): string {
  if (signed) return signed.decision === 'approved' ? 'approved' : 'returned'
  switch (stage.at) {
    case 'arriving':
      return 'being copied'
    case 'waiting':
      return 'waiting for its turn'
    case 'checking':
      return 'being checked'
    case 'failed':
      return 'not received'
    case 'received': {
      const { receipt, refused } = stage.received
      if (refused !== null) return 'not accepted'
      if (receipt.report === null) return 'not judged'
      return { pass: 'passes', fail: 'fails', unsure: 'to be looked at' }[receipt.report.verdict]
    }
  }
}
