import { html, type Markup } from '../../report/html/markup.ts'
import type { Regions } from '../../server/page/document.ts'
import { verdictMark } from '../../server/page/marks.ts'
import { count, glued } from '../../text/quantity.ts'
import type { Sitter } from '../sitters.ts'
import type { View } from '../view.ts'
import { wishText } from '../wish.ts'
import { courseStrip } from './course.ts'
import { STANDING_WORDS, standingMark } from './marks.ts'
import { framePicture } from './picture.ts'

/** The page for the photographer, with an empty place for each of its parts. */
export function photographerBody(consent: string | null): Markup {
  return html`<p id="lost" class="lost" role="alert" hidden>No connection to portrait-gate: what is shown may be old.</p>
<main data-events="events">
<section id="line" class="line" aria-live="polite" aria-label="Last frame"></section>
<div class="stage">
<section id="last" class="last" aria-label="Picture of the last frame"></section>
<section id="now" class="now" aria-label="Who sits now"></section>
<section id="people" class="people" aria-label="People of the roster"></section>
</div>
<section id="drift" class="drift" aria-label="Since the session began"></section>
<section id="notes" class="notes" aria-label="Notes" aria-live="polite"></section>
</main>
${foot(consent)}`
}

export function foot(consent: string | null): Markup {
  return html`<footer>${consent === null ? null : html`<p>${consent}</p>`}<p>Pictures and picks stay on this machine, in the session’s folder.</p></footer>`
}

export function photographerRegions(view: View): Regions {
  return {
    line: line(view),
    last: last(view),
    now: now(view),
    people: people(view),
    drift: courseStrip(view.course),
    notes: notes(view),
  }
}

function line({ last, waiting, course }: View): Markup {
  const drifted = course.drifts.map(({ sentence }) => html`<li>${glued(sentence)}</li>`)
  if (last)
    return html`<h1 class="${last.verdict}">${verdictMark(last.verdict)}<span>${glued(last.line)}</span></h1>${drifted.length > 0 ? html`<ul class="drifted">${drifted}</ul>` : null}`
  const words = waiting > 0 ? `${count(waiting, 'file')} on the way` : 'Waiting for the first frame'
  return html`<h1 class="unsure"><span>${words}</span></h1>`
}

function last({ last, sitters, waiting }: View): Markup {
  if (!last) return html`<p class="empty">Frames show up here as they arrive in the folder.</p>`
  const { frame, others } = last
  const choice = (label: string | null, name: string) =>
    html`<option value="${wishText({ do: 'joins', frame: frame.digest, sitter: label })}"${label === frame.sitter ? html` selected` : null}>${name}</option>`
  return html`${framePicture(last)}<div class="about"><p class="file">${frame.files[0] ?? ''}</p>
${others.length > 0 ? html`<ul class="others">${others.map((one) => html`<li>${one}</li>`)}</ul>` : null}
<p class="whose"><label>Frame of <select id="whose" data-chosen>${choice(null, 'nobody')}${sitters.map(({ label, name }) => choice(label, name))}</select></label></p>
${waiting > 0 ? html`<p class="small">${count(waiting, 'more file')} on the way</p>` : null}</div>`
}

function now({ sitting, sitters, undo }: View): Markup {
  const next = nextOf(sitters, sitting)
  return html`<h2>Sitting now</h2><p class="name">${sitting?.name ?? 'nobody'}</p>
<p class="doings">${next && html`<button id="next" type="button" data-key="n" data-do="${wishText({ do: 'sits', sitter: next.label })}"><kbd>n</kbd> Next: ${next.name}</button>`}
${sitting && html`<a id="to-pick" class="button" data-key="p" href="pick"><kbd>p</kbd> Pick: ${count(sitting.usable.length, 'usable frame')}</a>`}
${sitting && html`<button id="nobody" type="button" data-key="0" data-do="${wishText({ do: 'sits', sitter: null })}"><kbd>0</kbd> Nobody sits</button>`}
${undo === null ? null : html`<button id="undo" type="button" data-key="u" data-do="${wishText({ do: 'undo' })}"><kbd>u</kbd> Undo: ${undo}</button>`}</p>`
}

/** The first after whoever sits who has not been photographed. */
function nextOf(sitters: readonly Sitter[], sitting: Sitter | null): Sitter | null {
  const at = sitters.findIndex(({ label }) => label === sitting?.label)
  const waiting = [...sitters.slice(at + 1), ...sitters.slice(0, Math.max(0, at))]
  return waiting.find(({ standing }) => standing === 'not-yet') ?? null
}

function people({ sitters, sitting }: View): Markup {
  if (sitters.length === 0)
    return html`<h2>People</h2><p class="small">There is no roster; name one in the spec, and frames can be given to people.</p>`
  const ready = sitters.filter(({ standing }) => standing === 'picked').length
  const item = ({ label, name, standing, frames }: Sitter, n: number) =>
    html`<li><button id="person-${n}" type="button" data-do="${wishText({ do: 'sits', sitter: label })}" aria-pressed="${label === sitting?.label ? 'true' : 'false'}">${standingMark(standing)}<span class="who">${name}</span><span class="how">${STANDING_WORDS[standing]}${frames.length > 0 ? html`, ${count(frames.length, 'frame')}` : null}</span></button></li>`
  return html`<h2>People <span class="small">${ready} of ${sitters.length} have picked</span></h2><ul data-row>${sitters.map(item)}</ul>`
}

function notes({ notes: all, frames }: View): Markup {
  const items = all.map((one) => html`<li>${one}</li>`)
  return html`${items.length > 0 ? html`<ul>${items}</ul>` : null}<p class="small">${count(frames, 'frame')} in this session</p>`
}
