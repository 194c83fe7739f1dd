import { count, listed } from '../rules/quantity.ts'
import type { Report } from './report.ts'

/** The verdict on the delivery in a sentence. */
export function verdictSentence({ verdict, strict, totals }: Report): string {
  const { files, fail, unsure } = totals
  if (files === 0) return 'No portrait was judged.'
  if (verdict === 'pass') return files === 1 ? 'The portrait passes.' : `All ${files} portraits pass.`
  const parts = [...(fail > 0 ? [fails(fail)] : []), ...(unsure > 0 ? [needsALook(unsure)] : [])]
  return `Of ${count(files, 'portrait')}, ${listed(parts)}${strictNote(strict, fail)}.`
}

/** The totals in a sentence: "14 portraits: 10 pass, 2 fail, 2 need a look; 3 warnings." */
export function totalsSentence({ totals, strict }: Report): string {
  const { files, pass, fail, unsure, warnings } = totals
  const parts = [`${pass} ${pass === 1 ? 'passes' : 'pass'}`, fails(fail), needsALook(unsure)]
  const note = unsure > 0 ? strictNote(strict, fail) : ''
  return `${count(files, 'portrait')}: ${parts.join(', ')}${note}; ${count(warnings, 'warning')}.`
}

function fails(n: number): string {
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
