import type { Body } from '../../server/body.ts'
import { asset, page, texts } from '../../server/page/document.ts'
import { Gathered } from '../../server/page/gathered.ts'
import type { Handler, Reply } from '../../server/server.ts'
import { Streams } from '../../server/streams.ts'
import type { Desk } from '../desk.ts'
import { wishOf } from '../wish.ts'
import { announcedOf, sentOf } from './announced.ts'
import { body } from './body.ts'
import { DROP } from './drop.ts'
import { EMPTY, regions } from './regions.ts'
import { ReportPages } from './report-pages.ts'
import { STYLE } from './style.ts'

/** What the server of a desk answers. */
export class Pages {
  readonly #desk: Desk
  readonly #reports: ReportPages
  readonly #streams = new Streams()
  readonly #gathered = new Gathered(() => this.#streams.send({ regions: texts(regions(this.#desk)) }))

  constructor(desk: Desk, signal: AbortSignal) {
    this.#desk = desk
    this.#reports = new ReportPages(signal)
  }

  /** Tells all pages what there is to see now. */
  changed(): void {
    this.#gathered.changed()
  }

  readonly handler: Handler = async ({ path, body: sent }): Promise<Reply> => {
    const [what = '', id = '', name = '', ...rest] = path.split('/')
    if (rest.length > 0) return { status: 404 }
    if (sent) return this.#take(what, id, name, sent)
    if (path === '') return page('Receive a delivery', body(this.#desk.inbox))
    if (path === 'events')
      return { stream: (response) => this.#streams.open(response, { regions: texts(regions(this.#desk)) }) }
    if (what === 'report') return this.#report(id, name)
    if (what === 'sign-off' && name === '') return this.#signOff(id)
    return asset(path, { style: STYLE, script: DROP }) ?? { status: 404 }
  }

  /** Takes everything off the pages that are open. */
  close(): void {
    this.#gathered.close()
    this.#streams.send({ regions: EMPTY })
    this.#streams.close()
  }

  async #take(what: string, id: string, name: string, sent: Body): Promise<Reply> {
    const { uploads } = this.#desk
    if (what === 'upload' && name !== '') {
      const path = decoded(name)
      return { status: path !== null && (await uploads.put(id, path, sent)) ? 204 : 409 }
    }
    const json = await sent.json()
    if (what === 'do' && id === '') {
      const wish = json && wishOf(json.value)
      if (!wish) return { status: 400 }
      return { status: (await this.#desk.do(wish)) ? 204 : 409 }
    }
    if (what !== 'upload') return { status: 404 }
    if (id !== '') {
      const all = json && sentOf(json.value)
      if (!all) return { status: 400 }
      return { status: uploads.end(id, all) ? 204 : 409 }
    }
    const announced = json && announcedOf(json.value)
    const made = announced && (await uploads.begin(announced))
    return made ? { type: 'application/json', body: JSON.stringify({ id: made }) } : { status: 409 }
  }

  async #report(id: string, name: string): Promise<Reply> {
    const stage = this.#desk.deliveries.find(id)?.stage
    const text = stage?.at === 'received' ? await this.#reports.page(stage.received, name) : null
    return text === null ? { status: 404 } : { type: 'text/html; charset=utf-8', body: text, isApart: true }
  }

  #signOff(id: string): Reply {
    const { deliveries } = this.#desk
    const one = deliveries.find(id)
    const text = one && deliveries.takeSignOff(one)
    return text === null ? { status: 404 } : { type: 'application/json', body: text, isSaved: true }
  }
}

/** The path of a file that is sent; null when it is none. */
function decoded(name: string): string | null {
  try {
    return decodeURIComponent(name)
  } catch {
    return null
  }
}
