import { infoValue } from '../../bag/bag-info.ts'
import type { BagReceived } from '../../hand-over/receipt.ts'
import type { Received } from '../../hand-over/receive.ts'
import { html, type Markup } from '../../report/html/markup.ts'
import { totalsSentence, verdictSentence } from '../../report/sentences.ts'
import { peopleSentence } from '../../report/top.ts'
import { verdictMark } from '../../server/page/marks.ts'
import { count } from '../../text/quantity.ts'
import type { Incoming } from '../incoming.ts'
import { wishText } from '../wish.ts'
import { lines } from './lines.ts'

/** How the delivery that is shown stands: whether it is whole, and the verdict. */
export function deliveryHead(one: Incoming | null): Markup {
  if (one === null) return html``
  const away = html`<button id="away-${one.id}" type="button" data-do="${wishText({ do: 'put-away', delivery: one.id })}">${one.signed?.isKept === false ? 'Remove without saving the sign-off' : 'Remove from this page'}</button>`
  return html`<div class="head"><h2><bdi>${one.name}</bdi></h2>${away}</div>${course(one)}`
}

function course({ id, stage }: Incoming): Markup {
  switch (stage.at) {
    case 'arriving':
      return html`<p>It is being copied.</p>`
    case 'waiting':
      return html`<p>It is waiting: another delivery is being checked.</p>`
    case 'checking': {
      const { progress } = stage
      if (progress === null)
        return html`<p>Checking that it is whole and unchanged…</p><progress aria-label="Verifying"></progress>`
      const { done, total } = progress
      return html`<p>Measured ${done} of ${count(total, 'portrait')}</p><progress aria-label="Measured" max="${total}" value="${done}"></progress>`
    }
    case 'failed':
      return html`${verdict('fail', 'It could not be received.')}<p><bdi>${lines(stage.why)}</bdi></p>`
    case 'received':
      return received(id, stage.received)
  }
}

function verdict(kind: 'pass' | 'fail' | 'unsure', words: string): Markup {
  return html`<p class="outcome ${kind}">${verdictMark(kind)}<span>${words}</span></p>`
}

function received(id: string, { receipt: { bag, report }, refused }: Received): Markup {
  const whole = bag === null ? plain() : sealed(bag, refused)
  if (refused !== null)
    return html`${verdict('fail', `It is not accepted. ${refused}`)}${whole}<p>Nothing was judged. Ask the studio for the delivery again, or for the files named here.</p>`
  if (report === null)
    return html`${verdict('unsure', 'It was not judged.')}${whole}<p>Choose your house style above; the studio’s, which came along, would judge its own work.</p>`
  const people = peopleSentence(report)
  return html`${verdict(report.verdict, verdictSentence(report))}
<p>${totalsSentence(report)}</p>${people === null ? null : html`<p><bdi>${people}</bdi></p>`}
<p><a id="report-${id}" class="button" href="report/${id}/report.html" target="_blank" rel="noopener">Look at the portraits: the full report</a></p>${whole}`
}

function plain(): Markup {
  return html`<p>It is not sealed: whether a file is missing, or was changed on the way, can’t be known. Ask the studio for a sealed delivery.</p>`
}

function sealed(bag: BagReceived, refused: string | null): Markup {
  const [day, by] = [infoValue(bag.info, 'Bagging-Date'), infoValue(bag.info, 'Source-Organization')]
  const origin = html`${day === null ? null : html`, packed ${day}`}${by === null ? null : html` by <bdi>${by}</bdi>`}`
  const found = [...bag.problems, ...bag.warnings]
  const list =
    found.length === 0
      ? null
      : html`<ul class="told">${found.map(({ file, message }) => html`<li>${file === null ? null : html`<b><bdi>${file}</bdi></b>: `}<bdi>${message}</bdi></li>`)}</ul>`
  return html`<p>${refused === null ? 'It is whole and unchanged' : 'It is a sealed delivery'}${origin}. ${signature(bag)}</p>${list}`
}

function signature({ signature }: BagReceived): Markup {
  if (signature === null) return html`It carries no signature: who packed it can’t be known.`
  const { state, signer, key } = signature
  if (state === 'known') return html`It is signed by <bdi>${signer}</bdi>.`
  if (state === 'wrong') return html`Its signature does not fit.`
  return html`It is signed with the key <code>${key}</code>. Ask the studio whether that key is theirs, by phone or in a separate message.`
}
