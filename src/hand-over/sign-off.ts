import { createHash } from 'node:crypto'
import { UsageError } from '../checking/usage-error.ts'
import type { Sources } from '../judge/part.ts'
import type { Report } from '../judge/report.ts'
import { deliveryChecksum } from '../report/html/checksum.ts'
import { forJson } from '../report/safe.ts'
import { count } from '../text/quantity.ts'
import type { Answers } from './answers.ts'
import type { Received } from './receive.ts'
import type { JudgedBy, Signed } from './signed.ts'

/** What somebody decided on a delivery. */
export interface SignOff {
  readonly by: string
  readonly decision: 'approved' | 'returned'
  readonly note: string | null
  readonly answers: Answers
  readonly at: Date
}

/** Why a delivery can't be approved, in a sentence; null when it can. */
export function whyNotApproved({ receipt: { report }, refused }: Decided): string | null {
  if (refused !== null) return refused
  if (report === null) return 'It was not judged, since there is no spec of your own.'
  if (report.verdict !== 'fail') return null
  const { fail } = report.totals
  if (fail === 0) return 'The delivery as a whole fails.'
  return `${count(fail, 'portrait')} ${fail === 1 ? 'fails' : 'fail'}.`
}

type Decided = Pick<Received, 'receipt' | 'refused'>

/**
 * The text of a file that says who approved what, and when, or who did not: to be sent back to the studio and kept.
 * @param sources what it was judged by; null when it was not
 * @throws UsageError when nobody signs, or approves what nobody can approve
 */
export function signOffText(
  received: Decided,
  { by, decision, note, answers, at }: SignOff,
  sources: Sources | null,
): string {
  const { report, bag, from, questions } = received.receipt
  if (by.trim() === '') throw new UsageError('It was not signed off: say who signs.')
  const why = whyNotApproved(received)
  if (decision === 'approved' && why !== null) throw new UsageError(`It was not signed off. ${why}`)
  const signed: Signed = {
    kind: 'portrait delivery sign-off',
    decision,
    by: by.trim(),
    at: at.toISOString(),
    note: note?.trim() || null,
    from,
    bag: bag && { sha512: bag.checksum, signedBy: bag.signature },
    refused: received.refused,
    judged: report && sources && judgedBy(report, sources),
    questions: questions.map((question, i) => ({ ...question, agreed: answers[i] ?? null })),
  }
  return `${forJson(JSON.stringify(signed, null, 2))}\n`
}

function judgedBy(report: Report, sources: Sources): JudgedBy {
  const { sha256, files } = deliveryChecksum(report)
  const specs = [sources.spec, ...sources.extended].map(({ text }) => text)
  const { brand, version } = report.spec
  const used = report.waivers.filter(({ state }) => state === 'used')
  return {
    delivery: { files, sha256 },
    spec: { brand, version, sha256: createHash('sha256').update(specs.join('\0')).digest('hex') },
    verdict: report.verdict,
    totals: report.totals,
    exceptions: used.map(({ rule, files: named, people, reason, approvedBy, until }) => ({
      ...{ rule, files: named, people, reason, approvedBy, until },
    })),
  }
}
