import type { CellState, Matrix } from '../../judge/matrix.ts'
import type { Report } from '../../judge/report.ts'
import type { DeliveryOutcome } from '../../rules/contract/delivery-outcome.ts'
import { count } from '../../text/quantity.ts'
import { isLong } from '../short-list.ts'
import { toldIn } from '../told.ts'
import { finding } from './card.ts'
import { html, type Markup } from './markup.ts'
import type { Portrait } from './portrait.ts'
import { mark, openOutcomes } from './standing.ts'

const WORDS: Readonly<Record<CellState, string>> = {
  pass: 'passes',
  fail: 'fails',
  unsure: 'unsure',
  missing: 'missing',
  double: 'double',
  absent: 'not expected',
  perhaps: 'maybe?',
}

/** Who has what, and what is said of the delivery as a whole and not on one card; null when nothing is. */
export function whole(report: Report, portraits: readonly Portrait[]): Markup | null {
  const open = openOutcomes(toldIn(report).ofWhole)
  const { matrix } = report.delivery
  if (open.length === 0 && matrix === null) return null
  const cards = new Map(portraits.map((portrait) => [portrait.file.file, portrait.href]))
  return html`<section class="whole" aria-labelledby="whole"><h2 id="whole">${matrix ? 'Who has what' : 'The delivery as a whole'}</h2>
${matrix ? grid(matrix, cards) : null}
${open.length > 0 ? html`<ul class="open">${open.map(({ standing, outcome }) => finding(standing, outcome, about(outcome, cards)))}</ul>` : null}</section>
`
}

/** The people and files that an outcome is about, those with a card as links. */
function about({ people, files }: DeliveryOutcome, cards: ReadonlyMap<string, string>): Markup | null {
  const parts = [
    ...people.map((person) => html`<bdi>${person}</bdi>`),
    ...files.map((file) => linked(file, file, cards)),
  ]
  return parts.length === 0
    ? null
    : html`<p class="facts">${parts.map((part, i) => html`${i > 0 ? ' · ' : ''}${part}`)}</p>`
}

type Row = Matrix['rows'][number]

/** Of a long list, those of whom all is right are folded away. */
function grid(matrix: Matrix, cards: ReadonlyMap<string, string>): Markup {
  const { rows, unplaced } = matrix
  const isFine = ({ cells, listed }: Row) =>
    listed && cells.every(({ state }) => state === 'pass' || state === 'absent')
  const fine = isLong(rows.length) ? rows.filter(isFine) : []
  const shown = fine.length > 0 ? rows.filter((row) => !isFine(row)) : rows
  return html`${shown.length > 0 ? people(matrix, shown, 'Who has which deliverable', cards) : null}${
    fine.length > 0
      ? html`<details class="fine"><summary>${mark('pass')} ${count(fine.length, 'person', 'people')} with every portrait, all of which pass</summary>${people(matrix, fine, 'Those with every portrait', cards)}</details>`
      : null
  }${
    unplaced.length === 0
      ? null
      : html`<p>Files whose names don’t give the person or the deliverable:</p><ul class="unplaced">${unplaced.map((file) => html`<li>${linked(file, file, cards)}</li>`)}</ul>`
  }`
}

function people(
  { deliverables }: Matrix,
  rows: readonly Row[],
  label: string,
  cards: ReadonlyMap<string, string>,
): Markup {
  const heads = deliverables.length > 0 ? deliverables : ['portrait']
  const body = rows.map(
    ({ person, listed, perhaps, absent, cells }) =>
      html`<tr><th scope="row"><bdi>${person}</bdi>${listed ? null : html` <span class="facts">not on the roster</span>`}${perhaps === null ? null : html` <span class="facts"><bdi>${perhaps}</bdi>?</span>`}${absent === null ? null : html` <span class="facts"><bdi>${absent}</bdi></span>`}</th>${cells.map(
        ({ state, files }) =>
          html`<td class="${state}">${mark(state)} ${cellWords(state, files, person, cards)}</td>`,
      )}</tr>
`,
  )
  return html`<div class="scroll-x" tabindex="0" role="region" aria-label="${label}"><table class="matrix"><thead><tr><th scope="col">Person</th>${heads.map((head) => html`<th scope="col"><bdi>${head}</bdi></th>`)}</tr></thead><tbody>
${body}</tbody></table></div>`
}

function cellWords(
  state: CellState,
  files: readonly string[],
  person: string,
  cards: ReadonlyMap<string, string>,
): Markup {
  const [first] = files
  if (first === undefined) return html`${WORDS[state]}`
  if (files.length === 1) return linked(first, WORDS[state], cards, `${person}, ${first}: ${WORDS[state]}`)
  return html`${WORDS[state]}:${files.map((file, i) => html`${' '}${linked(file, `${i + 1}`, cards, `${i + 1}: ${person}, ${file}`)}`)}`
}

function linked(file: string, words: string, cards: ReadonlyMap<string, string>, label?: string): Markup {
  const href = cards.get(file)
  if (href === undefined) return html`<bdi>${words}</bdi>`
  return html`<a href="${href}"${label === undefined ? null : html` aria-label="${label}"`}><bdi>${words}</bdi></a>`
}
