import { join } from 'node:path'
import { checkDelivery } from '../checking/check-delivery.ts'
import type { Host, Output } from '../checking/host.ts'
import { meansOf } from '../checking/means.ts'
import type { ReadStandard } from '../checking/standard.ts'
import { UsageError } from '../checking/usage-error.ts'
import { openReceived } from '../hand-over/opened.ts'
import { type Received, type Receiving, receiveDelivery, withAnswers } from '../hand-over/receive.ts'
import type { Progress } from '../pool/measure-all.ts'
import type { Incoming } from './incoming.ts'

export interface ReceiverOptions {
  readonly host: Host
  /** Absolute; what is unpacked and measured is kept there as long as the desk is open. */
  readonly workroom: string
  readonly signers: string | null
  readonly strict: boolean
}

/** Receives deliveries as the command does, keeps what it says, and leaves nothing outside of the workroom. */
export class Receiver {
  readonly #options: ReceiverOptions

  constructor(options: ReceiverOptions) {
    this.#options = options
  }

  /** Verifies a delivery and judges it; what keeps it from that is in the stage. */
  async receive(one: Incoming, progress: (progress: Progress) => void): Promise<void> {
    const said: string[] = []
    const host = this.#quiet(one, said)
    try {
      await one.opened?.close()
      one.opened = null
      one.opened = await openReceived(one.path, null, host, this.#options.workroom)
      const received = await receiveDelivery(one.opened, this.#receiving(one.standard, host, progress), host)
      one.answers = received?.receipt.questions.map(() => null) ?? []
      one.stage = received
        ? { at: 'received', received }
        : { at: 'failed', why: said.join('').replaceAll(one.opened.delivery, one.name) }
    } catch (error) {
      if (!(error instanceof UsageError)) throw error
      one.stage = { at: 'failed', why: error.message }
    }
  }

  /** Judges a delivery again by what was answered. */
  async answered(one: Incoming, received: Received): Promise<Received> {
    const host = this.#quiet(one, [])
    return withAnswers(
      received,
      one.answers,
      this.#receiving(one.standard, host, () => {}),
    )
  }

  #receiving(standard: ReadStandard | null, host: Host, progress: (progress: Progress) => void): Receiving {
    const { workroom, signers, strict } = this.#options
    const measuring = { cache: join(workroom, 'measurements'), rehash: false }
    return {
      ...{ standard, signers, strict, at: new Date() },
      judge: async (check) => {
        progress({ done: 0, total: check.found.files.length })
        return checkDelivery(check, await meansOf(measuring, host, progress))
      },
    }
  }

  #quiet({ stop }: Incoming, said: string[]): Host {
    const { host } = this.#options
    return { ...quietHost(host, said), signal: AbortSignal.any([host.signal, stop.signal]) }
  }
}

/** A host that keeps what is said, and keeps nothing in the user's own folder. */
export function quietHost(host: Host, said: string[]): Host {
  const output: Output = { isTTY: false, write: (text) => said.push(text) }
  return { ...host, stdout: output, stderr: output, userCache: null }
}
