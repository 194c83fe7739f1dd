import type { Report } from '../../judge/report.ts'
import { count } from '../../text/quantity.ts'
import { extendsNote } from '../sentences.ts'
import { type DeliveryChecksum, deliveryChecksum } from './checksum.ts'
import { html, type Markup } from './markup.ts'
import { shownSpec } from './shown-spec.ts'

/** What whoever approves the delivery signs: on what grounds, and for exactly which files. */
export function signOff(report: Report, at: Date): Markup {
  const checksum = deliveryChecksum(report)
  const { brand, version } = report.spec
  const blank = (label: string) =>
    html`<div><dt>${label}</dt><dd><span aria-label="to be filled in by hand" role="img"></span></dd></div>`
  return html`<section class="sign-off" aria-labelledby="sign-off"><h2 id="sign-off">Sign-off</h2>
<p class="on-screen small">Print this report to sign it: its last sheet has the lines for name, date and signature.</p>
<div class="by-hand"><p>I have seen the portraits of this delivery and the findings in this report, and approve the delivery.</p>
<dl class="blanks">${['Name', 'Date', 'Signature', 'Except for'].map(blank)}</dl></div>
<dl class="grounds">
<div><dt>Brand spec</dt><dd><bdi>${brand}</bdi>, version ${version}${extendsNote(shownSpec(report.spec))}</dd></div>
<div><dt>Checked</dt><dd>${dayText(at)}, ${report.tool.name} ${report.tool.version}</dd></div>
<div><dt>Delivery</dt><dd>${checksumText(checksum, report.totals.files)}</dd></div></dl>
<p class="small">The SHA-256 of the list of all files and their own SHA-256 checksums, sorted by path, as sha256sum prints it.</p>
</section>
`
}

// More would push the signature off the sheet.
const MOST_NAMED = 3

function checksumText({ sha256, files, without }: DeliveryChecksum, all: number): Markup {
  const total = count(all, 'file')
  if (without.length === 0) return html`${total}, SHA-256 <code>${sha256}</code>`
  if (files === 0) return html`${total}, no checksum: none could be read`
  const named = without.slice(0, MOST_NAMED).map((file, i) => html`${i > 0 ? ', ' : ''}<bdi>${file}</bdi>`)
  const more = without.length - named.length
  const rest = more > 0 ? ` and ${more} more` : ''
  return html`${total}, SHA-256 <code>${sha256}</code> of the ${files} that could be read; not in it: ${named}${rest}`
}

/** The day in UTC, as in ISO 8601. */
export function dayText(at: Date): string {
  return at.toISOString().slice(0, 10)
}
