import { html, type Markup } from '../../report/html/markup.ts'
import type { Regions } from '../../server/page/document.ts'
import type { JudgedFrame } from '../judged-frame.ts'
import type { Sitter } from '../sitters.ts'
import { wishText } from '../wish.ts'
import { foot } from './photographer.ts'
import { croppedPicture } from './picture.ts'

/** The page for the sitter: their usable frames and nothing else. No fault is told here. */
export function pickBody(consent: string | null): Markup {
  return html`<p id="lost" class="lost" role="alert" hidden>No connection to portrait-gate.</p>
<main class="picking" data-events="pick-events">
<section id="choices" aria-live="polite" aria-label="Portraits to choose from"></section>
</main>
${foot(consent)}`
}

export function pickRegions(sitter: Sitter | null): Regions {
  return { choices: sitter ? choices(sitter) : nobody() }
}

const BACK = html`<a id="back" class="button back" data-key="Escape" href="."><kbd>Esc</kbd> Back</a>`

function nobody(): Markup {
  return html`<h1>Nobody sits now</h1><p>${BACK}</p>`
}

function choices({ label, name, pick, usable }: Sitter): Markup {
  if (usable.length === 0)
    return html`<h1>${name}</h1><p>There is nothing to choose from yet.</p><p>${BACK}</p>`
  const chosen = usable.findIndex(({ frame }) => frame.digest === pick)
  const item = (judged: JudgedFrame, n: number) => {
    const isChosen = n === chosen
    const wish = wishText({ do: 'pick', sitter: label, frame: isChosen ? null : judged.frame.digest })
    const key = n < 9 ? html` data-key="${n + 1}"` : null
    return html`<li><button id="choice-${n + 1}" type="button"${key} data-do="${wish}" aria-pressed="${isChosen ? 'true' : 'false'}">${croppedPicture(judged, `Portrait ${n + 1}`)}<span class="number">${n + 1}${isChosen ? html` <b>your choice</b>` : null}</span></button></li>`
  }
  const said = chosen < 0 ? 'Which one do you like best?' : `You chose number ${chosen + 1}.`
  return html`<header><h1>${name}</h1><p class="said">${said}</p>${BACK}</header><ul class="choices many-${Math.min(usable.length, 9)}" data-row>${usable.map(item)}</ul>`
}
