import { randomBytes } from 'node:crypto'
import { rm } from 'node:fs/promises'
import type { ReadStandard } from '../checking/standard.ts'
import type { Incoming, Stage } from './incoming.ts'
import type { Receiver } from './receiver.ts'
import { type Decision, sign } from './sign.ts'

export interface DeliveriesOptions {
  readonly receiver: Receiver
  /** What is judged by now. */
  readonly standard: () => ReadStandard | null
  readonly onChange: () => void
}

/** The deliveries at the desk, of which one is worked on at a time. */
export class Deliveries {
  readonly #options: DeliveriesOptions
  readonly #all = new Map<string, Incoming>()
  #work: Promise<void> = Promise.resolve()
  #shown: string | null = null

  constructor(options: DeliveriesOptions) {
    this.#options = options
  }

  get all(): readonly Incoming[] {
    return [...this.#all.values()]
  }

  /** The one that is shown; null when there is none. */
  get shown(): Incoming | null {
    return this.find(this.#shown ?? '')
  }

  find(id: string): Incoming | null {
    return this.#all.get(id) ?? null
  }

  /** Adds a delivery, the newest of which is shown. */
  add(told: Pick<Incoming, 'name' | 'path' | 'own'>, stage: Stage, id = newId()): Incoming {
    const one: Incoming = {
      ...{ id, ...told, stage, stop: new AbortController(), opened: null, standard: null },
      ...{ answers: [], signed: null, complaint: null },
    }
    this.#all.set(id, one)
    this.#shown = id
    this.#options.onChange()
    return one
  }

  /** Those whose sign-off would be lost with them. */
  get unkept(): readonly Incoming[] {
    return this.all.filter(({ signed }) => signed?.isKept === false)
  }

  /** The text of the sign-off for somebody who keeps it; null when there is none. */
  takeSignOff(one: Incoming): string | null {
    if (!one.signed) return null
    one.signed.isKept = true
    this.#options.onChange()
    return one.signed.text
  }

  show(one: Incoming): void {
    this.#shown = one.id
    this.#options.onChange()
  }

  /** Verifies and judges it when its turn comes. */
  receive(one: Incoming): void {
    this.set(one, { at: 'waiting' })
    this.#later(one, async () => {
      this.set(one, { at: 'checking', progress: null })
      one.standard = this.#options.standard()
      await this.#options.receiver.receive(one, (progress) => this.set(one, { at: 'checking', progress }))
    })
  }

  /** Judges all again that are not signed: by another house style. */
  receiveAgain(): void {
    for (const one of this.all) if (!one.signed && one.stage.at !== 'arriving') this.receive(one)
  }

  set(one: Incoming, stage: Stage): void {
    one.stage = stage
    this.#options.onChange()
  }

  /** Answers one of the studio's questions; false when there is no such question, or it is signed already. */
  answer(one: Incoming, question: number, agreed: boolean): boolean {
    if (one.stage.at !== 'received' || one.signed || one.answers[question] === undefined) return false
    one.answers = one.answers.map((before, i) => (i === question ? agreed : before))
    one.complaint = null
    this.#later(one, async () => {
      if (one.stage.at !== 'received') return
      const received = await this.#options.receiver.answered(one, one.stage.received)
      this.set(one, { at: 'received', received })
    })
    this.#options.onChange()
    return true
  }

  /** Writes down what was decided, once all answers have been judged by. */
  sign(one: Incoming, decision: Decision): void {
    this.#later(one, async () => {
      await sign(one, decision)
      this.#options.onChange()
    })
  }

  /** Takes a delivery off the desk, with all that is kept of it. What lies in a folder of the user's stays there. */
  async putAway(one: Incoming): Promise<void> {
    one.stop.abort()
    this.#all.delete(one.id)
    if (this.#shown === one.id) this.#shown = this.all.at(-1)?.id ?? null
    this.#options.onChange()
    await this.#work
    await one.opened?.close()
    if (one.own !== null) await rm(one.own, { recursive: true, force: true })
  }

  async close(): Promise<void> {
    await Promise.all(this.all.map((one) => this.putAway(one)))
    await this.#work
  }

  #later(one: Incoming, work: () => Promise<void>): void {
    const before = this.#work
    this.#work = (async () => {
      await before
      if (one.stop.signal.aborted) return
      try {
        await work()
      } catch (error) {
        if (one.stop.signal.aborted) return
        const words = error instanceof Error ? error.message : String(error)
        one.stage = { at: 'failed', why: `An error within portrait-gate, not in the delivery: ${words}` }
      }
      this.#options.onChange()
    })()
  }
}

/** A number that nobody mistakes for another delivery's. */
export function newId(): string {
  return randomBytes(8).toString('hex')
}
