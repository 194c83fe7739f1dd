import { parse } from 'node:path'
import type { Report } from '../../judge/report.ts'
import { count } from '../../text/quantity.ts'
import { verdictSentence } from '../sentences.ts'
import { card } from './card.ts'
import { contents } from './contents.ts'
import { exceptions } from './exceptions.ts'
import { filters } from './filters.ts'
import { legend } from './legend.ts'
import { html, type Markup } from './markup.ts'
import { page } from './page.ts'
import { PORTRAITS_PER_PAGE } from './per-page.ts'
import type { Pictures } from './pictures.ts'
import { plots } from './plots.ts'
import { type Portrait, portraitsOf } from './portrait.ts'
import { signOff } from './sign-off.ts'
import { strips } from './strip.ts'
import { summary } from './summary.ts'
import { whole } from './whole.ts'

export interface HtmlOptions {
  readonly pictures: Pictures
  /** When the portraits were checked. */
  readonly at: Date
  /** Name of the file that the report is written to: further pages, which lie beside it, are named after it. */
  readonly name: string
  readonly perPage?: number
}

export interface HtmlReport {
  readonly index: string
  /** Further pages by their file names, which lie beside the index; none for a report on one page. */
  readonly pages: ReadonlyMap<string, string>
}

/** The report to look at: a page that holds all it needs, its pictures included. */
export function htmlReport(report: Report, options: HtmlOptions): HtmlReport {
  const { pictures, at, name, perPage = PORTRAITS_PER_PAGE } = options
  const split = report.files.length > perPage
  const { name: stem, ext } = parse(name)
  const fileName = (number: number) => `${stem}-${number}${ext}`
  const pageOf = (index: number) => encodeURIComponent(fileName(Math.floor(index / perPage) + 1))
  const portraits = portraitsOf(report, pictures, split ? pageOf : () => '')
  const rules = [...new Set(portraits.flatMap(({ findings }) => findings.map(({ rule }) => rule)))]
  const { matrix } = report.delivery
  const front = (set: readonly Section[], all: readonly Section[]): Markup => {
    const sections: readonly Section[] = [
      ...set,
      ['whole', 'Who has what', whole(report, portraits)],
      ...all,
      ['spread', 'Measurements', plots(portraits, rules)],
      ['exceptions', 'Exceptions', exceptions(report)],
      ['sign-off', 'Sign-off', signOff(report, at)],
    ]
    const bodies = sections.map(([, , body]) => body)
    return html`${summary(report, portraits, at)}${jumps(sections)}${filters(portraits, rules)}${bodies}`
  }
  const title = `${verdictSentence(report)} ${report.spec.brand}`
  const set = { portraits, whole: portraits, matrix, cardsElsewhere: split }
  if (!split) {
    const body = front([['set', null, strips(set)]], [['all', 'Portraits', cards(portraits)]])
    return { index: page(title, body), pages: new Map() }
  }
  const parts = Array.from({ length: Math.ceil(portraits.length / perPage) }, (_, i) =>
    portraits.slice(i * perPage, (i + 1) * perPage),
  )
  const links = parts.map((part, i) => ({ part, href: encodeURIComponent(fileName(i + 1)) }))
  const index = front(
    [
      ['set', null, strips(set)],
      ['pages', null, pageLinks(links, null)],
    ],
    [['all', 'Portraits', contents(portraits)]],
  )
  const pages = parts.map((part, i): [string, string] => {
    const heading = `Page ${i + 1} of ${parts.length}`
    const home = html`<header class="part"><p><a href="${encodeURIComponent(name)}">${verdictSentence(report)}</a></p><h1>${heading}</h1></header>`
    const shown = { portraits: part, whole: portraits, matrix: null, cardsElsewhere: false }
    const body = html`${home}${pageLinks(links, i)}${filters(part, rules)}${strips(shown)}${cards(part)}`
    return [fileName(i + 1), page(`${heading}. ${title}`, body)]
  })
  return { index: page(title, index), pages: new Map(pages) }
}

/** Id of its heading, its name in the list of sections (none for what is near it), and what it says, if anything. */
type Section = readonly [id: string, name: string | null, body: Markup | null]

function jumps(sections: readonly Section[]): Markup {
  const links = sections
    .filter(([, name, body]) => body !== null && name !== null)
    .map(([id, name]) => html`<li><a href="#${id}">${name}</a></li>`)
  return html`<nav class="parts" aria-label="Sections of this page"><ul>${links}</ul></nav>
`
}

function cards(portraits: readonly Portrait[]): Markup {
  return html`<section class="all" aria-labelledby="all"><h2 id="all">Portrait by portrait</h2>
${legend()}<div class="cards">
${portraits.map(card)}</div></section>
`
}

function pageLinks(
  links: readonly { part: readonly Portrait[]; href: string }[],
  here: number | null,
): Markup {
  const item = ({ part, href }: { part: readonly Portrait[]; href: string }, i: number) => {
    const words = `Page ${i + 1}: ${count(part.length, 'portrait')}, ${part.filter(({ standing }) => standing === 'fail').length} to fix`
    return i === here
      ? html`<li aria-current="page">${words}</li>`
      : html`<li><a href="${href}">${words}</a></li>`
  }
  return html`<nav id="pages" aria-label="Pages of this report"><ul class="pages">${links.map(item)}</ul></nav>
`
}
