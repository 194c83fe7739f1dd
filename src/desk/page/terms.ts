import type { Difference, Question } from '../../hand-over/receipt.ts'
import { html, type Markup } from '../../report/html/markup.ts'
import { count, listed } from '../../text/quantity.ts'
import type { Incoming } from '../incoming.ts'
import { wishText } from '../wish.ts'

/** The exceptions that the studio asks for, each to be agreed to or not. */
export function questions(one: Incoming | null): Markup {
  if (one?.stage.at !== 'received') return html``
  return asked(one, one.stage.received.receipt.questions)
}

/** Where the studio's spec differs from the client's. */
export function differences(one: Incoming | null): Markup {
  return one?.stage.at === 'received' ? differing(one.stage.received.receipt.differences) : html``
}

function asked(one: Incoming, all: readonly Question[]): Markup {
  if (all.length === 0) return html``
  const open = one.answers.filter((answer) => answer === null).length
  return html`<h2>The studio asks you to accept ${count(all.length, 'finding')}</h2>
<p class="small">${open === 0 ? 'All are answered.' : `${count(open, 'answer')} to give. What you don’t agree to stays a finding.`}</p>
<ol class="questions">${all.map((question, n) => asking(one, question, n))}</ol>`
}

function asking(
  one: Incoming,
  { rule, files, people, finding, reason, approvedBy, until }: Question,
  n: number,
): Markup {
  const about = listed(files.length > 0 ? files : people) || 'the delivery'
  const choice = (agreed: boolean, words: string) => {
    const id = `answer-${one.id}-${n}-${agreed ? 'yes' : 'no'}`
    const wish = wishText({ do: 'answer', delivery: one.id, question: n, agreed })
    const state = html`${one.answers[n] === agreed ? html` checked` : null}${one.signed ? html` disabled` : null}`
    return html`<label for="${id}"><input id="${id}" type="radio" name="answer-${one.id}-${n}" data-do="${wish}"${state}> ${words}</label>`
  }
  return html`<li><fieldset><legend><b><bdi>${about}</bdi></b>, ${rule}</legend><p><bdi>${finding}</bdi></p>
<p>The studio’s reason: <bdi>${reason}</bdi> <span class="small">(<bdi>${approvedBy}</bdi>, until ${until})</span></p>
<p class="answers">${choice(true, 'I agree')}${choice(false, 'I don’t agree')}</p></fieldset></li>`
}

function differing(all: readonly Difference[] | null): Markup {
  if (all === null) return html``
  if (all.length === 0) return html`<h2>House styles</h2><p>The studio checked by the same house style.</p>`
  const row = ({ setting, ours, theirs }: Difference) =>
    html`<tr><th scope="row"><bdi>${setting}</bdi></th><td><bdi>${ours ?? 'none'}</bdi></td><td><bdi>${theirs ?? 'none'}</bdi></td></tr>`
  return html`<h2>The studio checked by another house style</h2><p>Yours counts. They differ in:</p>
<div class="wide" tabindex="0" role="group" aria-label="Differences"><table><thead><tr><th scope="col">Setting</th><th scope="col">Yours</th><th scope="col">The studio’s</th></tr></thead><tbody>${all.map(row)}</tbody></table></div>`
}
