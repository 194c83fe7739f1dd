import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Host } from '../checking/host.ts'
import { makeOwnFolder, type OwnFolder } from '../files/own-folder.ts'
import { Deliveries } from './deliveries.ts'
import { Inbox } from './inbox.ts'
import type { Incoming } from './incoming.ts'
import { Receiver } from './receiver.ts'
import { StyleChoice } from './style-choice.ts'
import { Uploads } from './uploads.ts'
import type { Wish } from './wish.ts'

/** Begins the names of folders in which desks keep what goes when they close. */
const WORKROOM = 'portrait-gate-desk-'

export interface DeskOptions {
  readonly host: Host
  /** Path of the house style; null to take the usual one, the last one, or none. */
  readonly spec: string | null
  /** Absolute path of a folder that deliveries are put into; null for none. */
  readonly inbox: string | null
  readonly signers: string | null
  readonly strict: boolean
  readonly onChange: () => void
  /** Somebody has asked for the end. */
  readonly onEnd: () => void
}

/** A desk at which deliveries are received: dropped on its page or put into a folder, judged, and signed. */
export class Desk {
  readonly #options: DeskOptions
  readonly #workroom: OwnFolder
  readonly #inbox: Inbox | null
  #notes: readonly string[] = []
  readonly style: StyleChoice
  readonly deliveries: Deliveries
  readonly uploads: Uploads

  private constructor(options: DeskOptions, workroom: OwnFolder, style: StyleChoice) {
    const { host, inbox, signers, strict, onChange } = options
    this.#options = options
    this.#workroom = workroom
    this.style = style
    const receiver = new Receiver({ host, workroom: workroom.path, signers, strict })
    this.deliveries = new Deliveries({ receiver, standard: () => style.standard, onChange })
    this.uploads = new Uploads(workroom.path, this.deliveries)
    this.#inbox = inbox === null ? null : this.#watched(inbox)
  }

  static async start(options: DeskOptions): Promise<Desk> {
    const style = await StyleChoice.start(options.spec, options.host)
    const workroom = await makeOwnFolder(tmpdir(), WORKROOM, options.host.processes)
    const desk = new Desk(options, workroom, style)
    desk.#inbox?.start()
    return desk
  }

  /** Path of the folder that deliveries are put into; null for none. */
  get inbox(): string | null {
    return this.#options.inbox
  }

  /** What is to be known of that folder, in sentences. */
  get notes(): readonly string[] {
    return this.#notes
  }

  /** Does what the page asks for; false when it is about something that is not there. */
  async do(wish: Wish): Promise<boolean> {
    const isDone = await this.#do(wish)
    this.#options.onChange()
    return isDone
  }

  /** Ends all work, and removes everything that was not signed into a folder of the user's. */
  async close(): Promise<void> {
    await this.#inbox?.close()
    await this.deliveries.close()
    await this.#workroom.remove()
  }

  async #do(wish: Wish): Promise<boolean> {
    switch (wish.do) {
      case 'look':
        return this.style.look(wish.folder)
      case 'style': {
        const isThere = await this.style.choose(wish.spec)
        if (isThere) this.deliveries.receiveAgain()
        return isThere
      }
      case 'choose':
        await this.style.show(wish.isOpen)
        return true
      case 'end':
        this.#options.onEnd()
        return true
      default: {
        const one = this.deliveries.find(wish.delivery)
        return one !== null && this.#doWith(one, wish)
      }
    }
  }

  async #doWith(one: Incoming, wish: Extract<Wish, { delivery: string }>): Promise<boolean> {
    switch (wish.do) {
      case 'show':
        this.deliveries.show(one)
        return true
      case 'put-away':
        await this.deliveries.putAway(one)
        return true
      case 'answer':
        return this.deliveries.answer(one, wish.question, wish.agreed)
      case 'sign':
        this.deliveries.sign(one, wish)
        return true
    }
  }

  #watched(folder: string): Inbox {
    const named = (name: string) =>
      this.deliveries.all.find((one) => one.own === null && one.name === name) ?? null
    return new Inbox({
      folder,
      take: (name) => {
        const known = named(name)
        if (known?.signed) return
        this.deliveries.receive(
          known ?? this.deliveries.add({ name, path: join(folder, name), own: null }, { at: 'waiting' }),
        )
      },
      gone: (name) => {
        const known = named(name)
        if (known) void this.deliveries.putAway(known)
      },
      tell: (notes) => {
        if (notes.join('\n') === this.#notes.join('\n')) return
        this.#notes = notes
        this.#options.onChange()
      },
    })
  }
}
