import { isMiss, type Report } from '../judge/report.ts'
import { count, listed } from '../text/quantity.ts'
import { quoted } from '../text/quoted.ts'

/** The verdict on the delivery in a sentence. */
export function verdictSentence({ verdict, strict, totals, delivery }: Report): string {
  const { files, fail, unsure } = totals
  if (files === 0) return 'No portrait was judged.'
  if (verdict === 'pass') return files === 1 ? 'The portrait passes.' : `All ${files} portraits pass.`
  const binding = delivery.outcomes.filter((outcome) => isMiss(outcome) && !outcome.advisory)
  const fails = binding.some((outcome) => outcome.verdict === 'fail')
  const whole = `the delivery as a whole ${fails ? 'fails' : 'needs a look'}`
  if (fail + unsure === 0)
    return `${count(files, 'portrait')} ${files === 1 ? 'passes' : 'pass'} one by one, but ${whole}${fails ? '' : strictNote(strict, 0)}.`
  const parts = [...(fail > 0 ? [failing(fail)] : []), ...(unsure > 0 ? [needsALook(unsure)] : [])]
  const note = strictNote(strict, fails ? 1 : fail)
  return `Of ${count(files, 'portrait')}, ${listed(parts)}${note}${binding.length > 0 ? `; ${whole}` : ''}.`
}

/** The totals in a sentence: "14 portraits: 10 pass, 2 fail, 2 need a look; 3 warnings." */
export function totalsSentence({ totals, strict }: Report): string {
  const { files, pass, fail, unsure, warnings, waived } = totals
  const parts = [`${pass} ${pass === 1 ? 'passes' : 'pass'}`, failing(fail), needsALook(unsure)]
  const note = unsure > 0 ? strictNote(strict, fail) : ''
  return `${count(files, 'portrait')}: ${parts.join(', ')}${note}; ${count(warnings, 'warning')}${waived > 0 ? `; ${waived} waived` : ''}.`
}

function failing(n: number): string {
  return `${n} ${n === 1 ? 'fails' : 'fail'}`
}

function needsALook(n: number): string {
  return `${n} ${n === 1 ? 'needs' : 'need'} a look`
}

function strictNote(strict: boolean, fail: number): string {
  return strict && fail === 0 ? ', which fails a strict run' : ''
}

/** What was not looked at, in a sentence; null when there is nothing. */
export function leftSentence({ left }: Report): string | null {
  const parts = [
    [left.hidden, 'hidden file'],
    [left.sidecars, 'sidecar'],
    [left.links, 'link'],
    [left.other, 'other file'],
  ] as const
  const told = parts.filter(([n]) => n > 0).map(([n, noun]) => count(n, noun))
  return told.length === 0 ? null : `Not looked at: ${listed(told)}.`
}

/** How the delivery as a whole stands, in a sentence; null when nothing was asked of it. */
export function wholeSentence({ delivery: { outcomes }, part }: Report): string | null {
  if (part) return `This is part ${part.number} of ${part.of}; the delivery as a whole is judged by merge.`
  if (outcomes.every(({ verdict }) => verdict === 'skip')) return null
  const missed = outcomes.filter(isMiss)
  const binding = missed.filter(({ advisory }) => !advisory)
  const having = (verdict: 'fail' | 'unsure') => binding.filter((one) => one.verdict === verdict).length
  const parts = [
    [having('fail'), 'to fix'],
    [having('unsure'), 'to look at'],
    [missed.length - binding.length, 'to be warned of'],
  ] as const
  const told = parts.filter(([n]) => n > 0).map(([n, what]) => `${n} ${what}`)
  return `The delivery as a whole: ${told.length === 0 ? 'no problems' : listed(told)}.`
}

/** A miss that is waived, in a sentence: what it is about and who answers for it. */
export interface Waived {
  readonly rule: string
  readonly about: string
  readonly text: string
}

/** All that is waived, in the order of the report. */
export function waivedOf({ files, delivery }: Report): Waived[] {
  const all = [
    ...files.flatMap(({ file, outcomes }) => outcomes.map((outcome) => ({ outcome, about: [file] }))),
    ...delivery.outcomes.map((outcome) => ({
      outcome,
      about: outcome.people.length > 0 ? outcome.people : outcome.files,
    })),
  ]
  return all.flatMap(({ outcome: { rule, reason, waiver }, about }) => {
    if (!waiver) return []
    const subject = listed(about.map(quoted))
    const text = `${rule} is waived for ${subject} until ${waiver.until}, by ${quoted(waiver.approvedBy)}: ${quoted(waiver.reason.replace(/\.$/, ''))}. What was found: ${reason}`
    return [{ rule, about: listed(about), text }]
  })
}

/** What is to be done about a waiver that let nothing through. */
export function waiverSentence(one: Report['waivers'][number]): string {
  const { rule, line, until, state } = one
  const whom = listed(subjectsOf(one).map(quoted))
  const waiver = `The waiver of ${rule} for ${whom} (line ${line} of the waivers)`
  switch (state) {
    case 'expired':
      return `${waiver} ended on ${until}; fix the portrait, or have the waiver renewed.`
    case 'refused':
      return `${waiver} covers a file that can't be read, which nothing waives; have the file delivered again.`
    case 'partial':
      return `${waiver} covers nothing: what fails or needs a look is about others too, whom it does not name. If those are accepted as well, list all of them in it.`
    case 'unused':
      return `${waiver} covers nothing that fails or needs a look; take it out.`
    case 'used':
      return `${waiver} holds until ${until}.`
  }
}

/** The files or people that a waiver names, as they are written there. */
export function subjectsOf({ files, people }: Pick<Report['waivers'][number], 'files' | 'people'>): string[] {
  const named = people.map((whom) => (typeof whom === 'string' ? whom : Object.values(whom).join(' ')))
  return [...files, ...named]
}
