import { html, type Markup } from '../../report/html/markup.ts'
import type { StyleChoice } from '../style-choice.ts'
import { wishText } from '../wish.ts'
import { lines } from './lines.ts'

/** By what is judged, and the list to choose from while it is open. */
export function houseStyle(style: StyleChoice): Markup {
  const { standard, spec, isOpen, problem } = style
  const chosen =
    standard === null
      ? html`<p>None is chosen yet. Choose the file in which your house style is written, such as brand.yaml.</p>`
      : html`<p><b><bdi>${standard.standard.spec.brand}</bdi></b>, version ${standard.standard.spec.version} <span class="small">(<bdi>${spec}</bdi>)</span></p>`
  const wrong =
    problem === null
      ? null
      : html`<div class="wrong"><p><b><bdi>${spec}</bdi></b> can’t be used:</p><pre tabindex="0" aria-label="What is wrong">${lines(problem)}</pre>
<p>Put what is missing into the same folder and press its button again, or send these lines to whoever keeps your house style.</p></div>`
  const toggle =
    standard === null
      ? null
      : html`<p><button id="choose" type="button" aria-expanded="${isOpen ? 'true' : 'false'}" data-do="${wishText({ do: 'choose', isOpen: !isOpen })}">${isOpen ? 'Keep this one' : 'Choose another'}</button></p>`
  return html`<h2>House style</h2>${chosen}${wrong}${toggle}${isOpen ? choices(style) : null}`
}

function choices({ folder: { folder, above, folders, specs } }: StyleChoice): Markup {
  const up =
    above === null
      ? null
      : html`<li><button id="above" type="button" data-do="${wishText({ do: 'look', folder: null })}">Up, to <bdi>${above}</bdi></button></li>`
  const into = folders.map(
    (name, n) =>
      html`<li><button id="into-${n}" type="button" data-do="${wishText({ do: 'look', folder: name })}">Folder <bdi>${name}</bdi></button></li>`,
  )
  const take = specs.map(
    (name, n) =>
      html`<li><button id="take-${n}" class="spec" type="button" data-do="${wishText({ do: 'style', spec: name })}">Use <b><bdi>${name}</bdi></b></button></li>`,
  )
  const again = html`<li><button id="again" type="button" data-do="${wishText({ do: 'choose', isOpen: true })}">Look again</button></li>`
  const none =
    specs.length > 0
      ? null
      : html`<p class="small">There is no house style in this folder; look in another.</p>`
  return html`<h3>In <bdi>${folder}</bdi></h3>${none}<ul class="places">${take}${up}${into}${again}</ul>`
}
