import { html, type Markup } from '../../report/html/markup.ts'
import type { Incoming } from '../incoming.ts'
import { wishText } from '../wish.ts'

/** The button that ends the desk, which says what would be lost. @param unkept deliveries whose sign-off nobody has kept */
export function ending(unkept: readonly Incoming[]): Markup {
  const lost = unkept.map(
    ({ name }) => html`<p class="wrong">The sign-off of <b><bdi>${name}</bdi></b> is not saved yet.</p>`,
  )
  return html`${lost}<p><button id="end" type="button" data-do="${wishText({ do: 'end' })}">End portrait-gate${unkept.length === 0 ? null : ' without saving'}</button></p>`
}
