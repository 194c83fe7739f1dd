import { mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import { whyRefused } from '../archive/entry-name.ts'
import { causeOf } from '../files/cause.ts'
import type { Body } from '../server/body.ts'
import { count } from '../text/quantity.ts'
import { type Deliveries, newId } from './deliveries.ts'
import type { Incoming } from './incoming.ts'
import { Upload } from './upload.ts'

/** What a page says before it sends files: a zip, or a folder with what is in it. */
export interface Announced {
  readonly name: string
  readonly isZip: boolean
}

/** Deliveries that come in through the page. */
export class Uploads {
  readonly #workroom: string
  readonly #deliveries: Deliveries
  readonly #open = new Map<string, Upload>()

  /** @param workroom absolute */
  constructor(workroom: string, deliveries: Deliveries) {
    this.#workroom = workroom
    this.#deliveries = deliveries
  }

  /** Makes room for a delivery. @returns what its files are to be sent to; null when it can't have that name */
  async begin({ name, isZip }: Announced): Promise<string | null> {
    if (name.includes('/') || whyRefused(name) !== null) return null
    const id = newId()
    const own = join(this.#workroom, id)
    const path = join(own, name)
    await mkdir(isZip ? own : path, { recursive: true })
    this.#open.set(id, new Upload(isZip ? own : path))
    this.#deliveries.add({ name, path, own }, { at: 'arriving' }, id)
    return id
  }

  /** Takes a file; false when it is refused, or nobody waits for it. @param path from the delivery's folder on, with `/` */
  async put(id: string, path: string, body: Body): Promise<boolean> {
    const upload = this.#open.get(id)
    const one = this.#deliveries.find(id)
    if (!upload || !one) return false
    try {
      const why = await upload.put(path, body)
      if (why !== null) this.#refuse(one, `${why}. Ask the studio for plain files and folders.`)
      return why === null
    } catch (error) {
      const code = causeOf(error)
      this.#refuse(one, `could not be copied (${code}). See that there is room on the disk, and try again.`)
      return false
    }
  }

  /** All was sent; false when it is not what arrived. */
  end(id: string, sent: { readonly files: number; readonly bytes: number }): boolean {
    const upload = this.#open.get(id)
    const one = this.#deliveries.find(id)
    if (!upload || !one) return false
    const isWhole = upload.files === sent.files && upload.bytes === sent.bytes
    if (!isWhole)
      this.#refuse(one, `was cut off: ${upload.files} of ${count(sent.files, 'file')} arrived. Try again.`)
    else {
      this.#open.delete(id)
      this.#deliveries.receive(one)
    }
    return isWhole
  }

  #refuse(one: Incoming, why: string): void {
    this.#open.delete(one.id)
    this.#deliveries.set(one, { at: 'failed', why: `${one.name} ${why}` })
  }
}
