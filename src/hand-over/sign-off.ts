import { createHash } from 'node:crypto'
import { UsageError } from '../checking/usage-error.ts'
import type { Sources } from '../judge/part.ts'
import { deliveryChecksum } from '../report/html/checksum.ts'
import { forJson } from '../report/safe.ts'
import { count } from '../text/quantity.ts'
import type { Receipt } from './receipt.ts'

export interface SignOff {
  readonly receipt: Receipt
  readonly refused: string | null
  readonly sources: Sources
  readonly at: Date
}

/**
 * The text of a file that says who approved what, and when: to be sent back to the studio and kept.
 * @throws UsageError when there is something that nobody can approve
 */
export function signOffText(by: string, { receipt, refused, sources, at }: SignOff): string {
  const { report, bag, from } = receipt
  if (refused !== null) throw new UsageError(`It was not signed off. ${refused}`)
  if (by.trim() === '') throw new UsageError('It was not signed off: say who approves it, --by "NAME".')
  if (report === null)
    throw new UsageError('It was not signed off, since it was not judged; name your spec with --spec FILE.')
  if (report.verdict === 'fail')
    throw new UsageError(
      `It was not signed off: ${count(report.totals.fail, 'portrait')} fail, or the delivery as a whole does. Accept what is to be accepted in your waivers file.`,
    )
  const { sha256, files } = deliveryChecksum(report)
  const specs = [sources.spec, ...sources.extended].map(({ text }) => text)
  const { brand, version } = report.spec
  const exceptions = report.waivers.filter(({ state }) => state === 'used')
  return `${forJson(
    JSON.stringify(
      {
        kind: 'portrait delivery sign-off',
        by: by.trim(),
        at: at.toISOString(),
        from,
        delivery: { files, sha256 },
        bag: bag && { sha512: bag.checksum, signedBy: bag.signature },
        spec: { brand, version, sha256: createHash('sha256').update(specs.join('\0')).digest('hex') },
        verdict: report.verdict,
        totals: report.totals,
        exceptions: exceptions.map(({ rule, files: named, people, reason, approvedBy, until }) => ({
          ...{ rule, files: named, people, reason, approvedBy, until },
        })),
      },
      null,
      2,
    ),
  )}\n`
}
