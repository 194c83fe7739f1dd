import type { Report } from '../../judge/report.ts'
import type { WaiverReport } from '../../waivers/waiver.ts'
import { subjectsOf } from '../sentences.ts'
import { html, type Markup } from './markup.ts'

const STATES: Readonly<Record<WaiverReport['state'], string>> = {
  used: 'in use',
  partial: 'no effect: the finding is also about others, whom it does not name',
  absent: 'no effect: no file or person of this delivery has that name',
  unused: 'no effect: nothing that it covers fails or is unsure',
  expired: 'expired',
  refused: 'refused: no exception covers a file that can’t be read',
}

const HEADS = ['Rule', 'For', 'Reason', 'Approved by', 'Until', 'State']

/** Every exception, who approved it and what became of it; null when there are none. */
export function exceptions({ waivers: all }: Report): Markup | null {
  if (all.length === 0) return null
  // On a narrow screen each row is a list, whose entries need their heads.
  const row = (waiver: WaiverReport) => {
    const [, ...heads] = HEADS
    const texts = [
      subjectsOf(waiver).join(', '),
      waiver.reason,
      waiver.approvedBy,
      waiver.until,
      STATES[waiver.state],
    ]
    return html`<tr><th scope="row">${waiver.rule}</th>${texts.map((text, i) => html`<td data-head="${heads[i] ?? ''}"><bdi>${text}</bdi></td>`)}</tr>
`
  }
  return html`<section class="exceptions" aria-labelledby="exceptions"><h2 id="exceptions">Exceptions</h2>
<div class="scroll-x" tabindex="0" role="region" aria-label="Table of exceptions"><table><thead><tr>${HEADS.map((head) => html`<th scope="col">${head}</th>`)}</tr></thead><tbody>
${all.map(row)}</tbody></table></div></section>
`
}
