import { byCodePoint } from '../../text/code-points.ts'
import { html, type Markup } from './markup.ts'
import type { Portrait } from './portrait.ts'
import { openOutcomes, STANDINGS, WORDS } from './standing.ts'

/** What the cards can be narrowed to and sorted by; shown only where scripts run. */
export function filters(portraits: readonly Portrait[], rules: readonly string[]): Markup {
  const having = (test: (portrait: Portrait) => boolean) => portraits.filter(test).length
  const standings = STANDINGS.map((standing) => ({
    value: standing,
    words: WORDS[standing],
    n: having((portrait) => portrait.standing === standing),
  }))
  const missed = rules.map((rule) => ({
    value: rule,
    words: rule,
    n: having((portrait) => isOpen(portrait, rule)),
  }))
  const names = [...new Set(portraits.map(({ file }) => file.deliverable ?? ''))].sort(byCodePoint)
  const deliverables = names.map((name) => ({
    value: name,
    words: name,
    n: having(({ file }) => file.deliverable === name),
  }))
  const sorts = rules.filter((rule) =>
    portraits.some(({ file }) => file.outcomes.some((one) => one.rule === rule && one.figure)),
  )
  return html`<form class="filters" hidden aria-label="Filter and sort the portraits">
${choice('standing', 'Verdict', 'Any verdict', standings)}
${choice('rule', 'Rule not met', 'Any rule', missed)}
<label><span class="sr">Person or file</span><input name="words" type="search" placeholder="Person or file" autocomplete="off" spellcheck="false"></label>
<details><summary>More</summary>
${
  names.length > 1
    ? choice(
        'deliverable',
        'Deliverable',
        'Any deliverable',
        deliverables.filter(({ value }) => value !== ''),
      )
    : null
}
<label>Sort the cards by <select name="sort"><option value="">verdict, worst first</option><option value="name">file name</option>${sorts.map((rule) => html`<option value="${rule}">${rule}, lowest first</option>`)}</select></label>
<label class="check"><input name="plain" type="checkbox"> Hide the lines</label></details>
<output aria-live="polite"></output>
<button type="reset" hidden>Show all</button>
</form>
`
}

interface Option {
  readonly value: string
  readonly words: string
  readonly n: number
}

function choice(name: string, label: string, all: string, options: readonly Option[]): Markup {
  const shown = options.filter(({ n }) => n > 0)
  return html`<label><span class="sr">${label}</span><select name="${name}"><option value="">${all}</option>${shown.map(({ value, words, n }) => html`<option value="${value}">${words} (${n})</option>`)}</select></label>`
}

function isOpen({ findings }: Portrait, rule: string): boolean {
  return openOutcomes(findings).some(({ outcome }) => outcome.rule === rule)
}
