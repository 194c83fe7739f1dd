import type { Handler, Reply } from '../../server/server.ts'
import { Streams } from '../../server/streams.ts'
import type { View } from '../view.ts'
import type { Watch } from '../watch.ts'
import { wishOf } from '../wish.ts'
import { document, type Regions } from './document.ts'
import { ICON } from './marks.ts'
import { photographerBody, photographerRegions } from './photographer.ts'
import { pickBody, pickRegions } from './pick.ts'
import { SCRIPT } from './script.ts'
import { STYLE } from './style.ts'

/** Time in which changes are gathered before pages are told, in ms. @choice nobody notices it; a burst of files then costs one message; no source. */
const GATHERED_MS = 30

/** How many times as long as telling pages takes they are left alone at least: while thousands of frames arrive, measuring goes first. @choice no source */
const PAUSE = 4

/** What the server of a session answers. */
export class Pages {
  readonly #watch: Watch
  readonly #photographer = new Streams()
  readonly #pick = new Streams()
  #timer: NodeJS.Timeout | null = null
  /** How long it took to tell pages the last time. */
  #tookMs = 0

  constructor(watch: Watch) {
    this.#watch = watch
  }

  /** Tells all pages what there is to see now. */
  changed(): void {
    const wait = Math.max(GATHERED_MS, PAUSE * this.#tookMs)
    this.#timer ??= setTimeout(() => {
      this.#timer = null
      if (this.#photographer.size + this.#pick.size === 0) return
      const began = performance.now()
      const view = this.#watch.view()
      this.#photographer.send({ regions: texts(photographerRegions(view)) })
      this.#pick.send({ regions: this.#picking(view) })
      this.#tookMs = performance.now() - began
    }, wait)
  }

  readonly handler: Handler = async ({ path, sent }): Promise<Reply> => {
    if (sent !== undefined) return path === 'do' ? this.#do(sent) : { status: 404 }
    const view = () => this.#watch.view()
    switch (path) {
      case '':
        return page(`${view().brand}: frames`, photographerBody(view().consent))
      case 'pick':
        return page(`${view().brand}: portraits`, pickBody(view().consent))
      case 'icon.svg':
        return { type: 'image/svg+xml', body: ICON }
      case 'page.css':
        return { type: 'text/css; charset=utf-8', body: STYLE }
      case 'page.js':
        return { type: 'text/javascript; charset=utf-8', body: SCRIPT }
      case 'events':
        return {
          stream: (response) =>
            this.#photographer.open(response, { regions: texts(photographerRegions(view())) }),
        }
      case 'pick-events':
        return { stream: (response) => this.#pick.open(response, { regions: this.#picking(view()) }) }
    }
    const [folder, digest = '', ...rest] = path.split('/')
    if (folder !== 'picture' || rest.length > 0 || !this.#watch.hasFrame(digest)) return { status: 404 }
    const body = await this.#watch.previews.read(digest)
    return body ? { type: 'image/jpeg', body, isFixed: true } : { status: 404 }
  }

  close(): void {
    if (this.#timer) clearTimeout(this.#timer)
    this.#photographer.close()
    this.#pick.close()
  }

  async #do(sent: unknown): Promise<Reply> {
    const wish = wishOf(sent)
    if (!wish) return { status: 400 }
    return { status: (await this.#watch.do(wish)) ? 204 : 409 }
  }

  #picking({ sitting }: View): Record<string, string> {
    return texts(pickRegions(sitting))
  }
}

function page(title: string, body: Parameters<typeof document>[1]): Reply {
  return { type: 'text/html; charset=utf-8', body: document(title, body) }
}

function texts(regions: Regions): Record<string, string> {
  return Object.fromEntries(Object.entries(regions).map(([id, { text }]) => [id, text]))
}
