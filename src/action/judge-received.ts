import { type Check, checkShowing } from '../checking/check-delivery.ts'
import type { Host } from '../checking/host.ts'
import type { MeasuringOptions } from '../checking/means.ts'
import { type ReadStandard, readStandard } from '../checking/standard.ts'
import { type Opened, openReceived } from '../hand-over/opened.ts'
import { bagLines, termsLines } from '../hand-over/receipt-text.ts'
import { receiveDelivery } from '../hand-over/receive.ts'
import { exitCode } from '../judge/report.ts'
import { planReceiving } from './plan.ts'
import { optionsOf } from './standard/standard-options.ts'
import type { Told } from './telling/told.ts'
import { notAccepted, refused, trouble } from './telling/trouble.ts'
import type { Judged, Work } from './work.ts'

/**
 * Verifies a delivery that was sent, and judges it by the repository's own spec when it is whole.
 * @param path of the zip or the folder, from the workspace on
 * @param host to which sentences are said; @param said what was said so far
 * @throws UsageError when the zip is refused, or the inputs or the checkout are not fit for it
 */
export async function judgeReceived(
  path: string,
  work: Work,
  host: Host,
  said: readonly string[],
): Promise<Judged | Told> {
  const { runner, cache } = work
  const inForce = await planReceiving(path, work)
  const measuring = { cache: cache ?? (false as const), rehash: false }
  const here = { ...host, cwd: inForce.cwd }
  const judgedBy = await readStandard({ ...optionsOf(inForce), ...measuring }, here)
  if (!judgedBy) return refused(said, inForce, runner.workspace)
  const opened = await openReceived(path, null, host, runner.temp)
  const received = ofOpened(opened, { ...work, judgedBy, measuring }, host)
  const judged = await received.catch(async (error: unknown) => {
    await opened.close()
    throw error
  })
  const told = judged ?? trouble(said)
  const all = { ...told, notes: [...inForce.notes, ...told.notes] }
  if ('report' in all) return { ...all, close: opened.close }
  await opened.close()
  return all
}

interface Receiving extends Pick<Work, 'inputs' | 'log'> {
  readonly judgedBy: ReadStandard
  readonly measuring: MeasuringOptions
}

/** Null when there are no portraits, which is said. */
async function ofOpened(
  opened: Opened,
  { inputs: { strict }, log, judgedBy, measuring }: Receiving,
  host: Host,
): Promise<Judged | Told | null> {
  const at = new Date()
  const judge = (check: Check) => checkShowing(check, measuring, host)
  const received = await receiveDelivery(
    opened,
    { standard: judgedBy, signers: null, strict, at, judge },
    host,
  )
  if (!received) return null
  const { receipt, refused: why, found } = received
  const { report } = receipt
  const bag = bagLines(receipt, why)
  for (const line of bag) log.write(`${line}\n`)
  if (!report) return notAccepted(bag)
  const notes = [...bag, ...termsLines(receipt)]
  return {
    report,
    at,
    root: opened.delivery,
    portraits: found?.files ?? [],
    judgedBy,
    notes,
    exit: exitCode(report),
  }
}
