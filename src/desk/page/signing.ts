import { html, type Markup } from '../../report/html/markup.ts'
import type { Incoming, Signed } from '../incoming.ts'
import { whyNotYet } from '../sign.ts'
import { wishText } from '../wish.ts'

/** What Enter in the line for the name presses, so that nobody signs by it: a form’s first button (HTML Standard, implicit submission). */
const NOT_BY_ENTER = html`<button disabled hidden></button>`

/** The lines to sign on, or what was signed. */
export function signing(one: Incoming | null): Markup {
  if (one?.stage.at !== 'received') return html``
  if (one.signed) return signedOff(one.id, one.signed)
  const why = whyNotYet(one)
  const { id, complaint } = one
  const unsure = one.stage.received.receipt.report?.verdict === 'unsure'
  return html`<h2>Sign-off</h2>
${why === null ? null : html`<p><b>It can’t be approved:</b> <bdi>${why}</bdi> You can return it to the studio.</p>`}
${unsure ? html`<p>What is unsure could not be measured: look at it in the full report before you approve.</p>` : null}
<form data-sends="${wishText({ do: 'sign', delivery: id })}">
<p><label for="by-${id}">Your name</label> <input id="by-${id}" name="by" type="text" required maxlength="200" autocomplete="name"></p>
<p><label for="note-${id}">Note to the studio, if you like</label> <textarea id="note-${id}" name="note" rows="3" maxlength="4000"></textarea></p>
<p class="decide">${NOT_BY_ENTER}<button id="approve-${id}" class="main" name="decision" value="approved"${why === null ? null : html` disabled`}>Approve the delivery</button>
<button id="return-${id}"${why === null ? null : html` class="main"`} name="decision" value="returned">Return it to the studio</button></p></form>
${complaint === null ? null : html`<p class="wrong" role="alert"><bdi>${complaint}</bdi></p>`}`
}

function signedOff(id: string, { by, decision, name, savedAs }: Signed): Markup {
  const words = decision === 'approved' ? 'Approved' : 'Returned'
  const saved =
    savedAs === null
      ? html`<p>Nothing was sent: save the sign-off and mail the file to the studio. Your browser puts it where it puts downloads, as <b><bdi>${name}</bdi></b>. What you have not saved is gone when you end.</p>`
      : html`<p>Send this file back to the studio: <b><bdi>${savedAs}</bdi></b></p>`
  return html`<h2>Sign-off</h2><p role="status"><b>${words} by <bdi>${by}</bdi>.</b></p>${saved}
<p><a id="save-${id}" class="${savedAs === null ? 'button main' : 'button'}" href="sign-off/${id}" download="${name}">Save ${savedAs === null ? 'the sign-off' : 'a copy'}</a></p>`
}
