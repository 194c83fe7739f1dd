import type { Report } from '../judge/report.ts'
import { isMiss } from '../judge/verdict.ts'
import type { DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'
import { count, listed } from '../text/quantity.ts'
import { quoted } from '../text/quoted.ts'

/** The verdict on the delivery in a sentence. */
export function verdictSentence({ verdict, strict, totals, delivery }: Report): string {
  const { files, fail, unsure } = totals
  if (files === 0) return 'No portrait was judged.'
  if (verdict === 'pass') return files === 1 ? 'The portrait passes.' : `All ${files} portraits pass.`
  const binding = delivery.outcomes.filter((outcome) => isMiss(outcome) && !outcome.advisory)
  const fails = binding.some((outcome) => outcome.verdict === 'fail')
  const whole = `the delivery as a whole ${fails ? 'fails' : 'is unsure'}`
  if (fail + unsure === 0)
    return `${count(files, 'portrait')} ${files === 1 ? 'passes' : 'pass'} one by one, but ${whole}${fails ? '' : strictNote(strict, 0)}.`
  const parts = [
    ...(fail > 0 ? [failing(fail)] : []),
    ...(unsure > 0 ? [`${unsure} ${unsure === 1 ? 'is' : 'are'} unsure`] : []),
  ]
  const note = strictNote(strict, fails ? 1 : fail)
  return `Of ${count(files, 'portrait')}, ${listed(parts)}${note}${binding.length > 0 ? `; ${whole}` : ''}.`
}

/** What the spec extends, to follow what is said of the spec itself; empty when it stands alone. */
export function extendsNote({ extends: extended = [] }: Report['spec']): string {
  if (extended.length === 0) return ''
  return `, which extends ${listed(extended.map(({ file, version }) => `version ${version} of ${file}`))}`
}

/** The totals in a sentence: "14 portraits: 10 pass, 2 fail, 2 unsure; 3 warnings." */
export function totalsSentence(report: Report): string {
  const { totals, strict } = report
  const { files, pass, fail, unsure, warnings, waived } = totals
  const known = knownOf(report).length
  const parts = [`${pass} pass`, `${fail} fail`, `${unsure} unsure`]
  const note = unsure > 0 ? strictNote(strict, fail) : ''
  return `${count(files, 'portrait')}: ${parts.join(', ')}${note}; ${count(warnings, 'warning')}${waived > 0 ? `; ${count(waived, 'exception')}` : ''}${known > 0 ? `; ${count(known, 'known finding')}` : ''}.`
}

function failing(n: number): string {
  return `${n} ${n === 1 ? 'fails' : 'fail'}`
}

function strictNote(strict: boolean, fail: number): string {
  return strict && fail === 0 ? ', which fails a strict run' : ''
}

/** What was not checked, in a sentence; null when there is nothing. */
export function leftSentence({ left }: Report): string | null {
  const parts = [
    [left.hidden, 'hidden file', 'hidden files'],
    [left.sidecars, 'document or sidecar', 'documents or sidecars'],
    [left.links, 'link', 'links'],
    [left.other, 'other file', 'other files'],
  ] as const
  const shown = parts.filter(([n]) => n > 0).map(([n, one, many]) => count(n, one, many))
  return shown.length === 0 ? null : `Not checked: ${listed(shown)}.`
}

/** What was left open because only a part was checked, in a sentence; null when all was. */
export function partialSentence({ partial }: Report): string | null {
  if (!partial) return null
  const open = partial.notJudged
  return `Only a part of the delivery was checked${open.length === 0 ? '' : `. Not judged: ${open.join('; ')}`}.`
}

/** How the delivery as a whole stands, in a sentence; null when nothing was asked of it. */
export function wholeSentence({ delivery: { outcomes }, part, partial }: Report): string | null {
  if (part) return `This is part ${part.number} of ${part.of}; the delivery as a whole is judged by merge.`
  if (outcomes.every(({ verdict }) => verdict === 'skip')) return null
  const missed = outcomes.filter(isMiss)
  const binding = missed.filter(({ advisory }) => !advisory)
  const having = (verdict: 'fail' | 'unsure') => binding.filter((one) => one.verdict === verdict).length
  const parts = [
    [having('fail'), 'problem'],
    [having('unsure'), 'unsure finding'],
    [missed.length - binding.length, 'warning'],
  ] as const
  const shown = parts.filter(([n]) => n > 0).map(([n, noun]) => count(n, noun))
  const none = outcomes.some(({ known }) => known) ? 'no new problems' : 'no problems'
  return `${partial ? 'The part' : 'The delivery'} as a whole: ${shown.length === 0 ? none : listed(shown)}.`
}

/** An accepted finding, in a sentence: what it is about and who approved it. */
export interface Accepted {
  readonly rule: string
  readonly about: string
  readonly text: string
}

/** All findings that exceptions cover, in the order of the report. */
export function acceptedOf({ files, delivery }: Report): Accepted[] {
  const all = [
    ...files.flatMap(({ file, outcomes }) =>
      outcomes.filter(({ waiver }) => waiver).map((outcome) => ({ outcome, about: [file] })),
    ),
    ...delivery.outcomes.map((outcome) => ({
      outcome,
      about: outcome.people.length > 0 ? outcome.people : outcome.files,
    })),
  ]
  return all.flatMap(({ outcome: { rule, reason, waiver }, about }) => {
    if (!waiver) return []
    const subject = listed(about.map(quoted))
    const text = `${rule} for ${subject}: accepted until ${waiver.until} by ${quoted(waiver.approvedBy)}, who writes ${quoted(waiver.reason.replace(/\.$/, ''))}. The finding: ${reason}`
    return [{ rule, about: listed(about), text }]
  })
}

/** The findings that were there before the change that is judged. */
export function knownOf({ delivery }: Report): readonly DeliveryOutcome[] {
  return delivery.outcomes.filter(({ known }) => known)
}

/** Over a list of known findings. */
export function knownHeading(findings: number): string {
  return `Known before this change, and not counted: ${count(findings, 'finding')}`
}

/** What to do about an exception that covers nothing. */
export function exceptionSentence(one: Report['waivers'][number]): string {
  const { rule, line, until, state } = one
  const whom = listed(subjectsOf(one).map(quoted))
  const exception = `The exception from ${rule} for ${whom} (line ${line} of the waivers file)`
  switch (state) {
    case 'expired':
      return `${exception} ended on ${until}; fix the portrait or renew the exception.`
    case 'refused':
      return `${exception} covers a file that can't be read, which no exception may cover; have the file delivered again.`
    case 'partial':
      return `${exception} has no effect: the finding is also about others, whom it does not name. To accept it for all of them, list them all.`
    case 'absent':
      return `${exception} has no effect: no file or person of this delivery has that name. Write it as the report does.`
    case 'unused':
      return `${exception} has no effect: nothing that it covers fails or is unsure; remove it.`
    case 'used':
      return `${exception} is valid until ${until}.`
  }
}

/** The files or people that an exception names, as they are written there. */
export function subjectsOf({ files, people }: Pick<Report['waivers'][number], 'files' | 'people'>): string[] {
  const named = people.map((whom) => (typeof whom === 'string' ? whom : Object.values(whom).join(' ')))
  return [...files, ...named]
}
