import { asset, page, texts } from '../../server/page/document.ts'
import { Gathered } from '../../server/page/gathered.ts'
import type { Handler, Reply } from '../../server/server.ts'
import { Streams } from '../../server/streams.ts'
import type { View } from '../view.ts'
import type { Watch } from '../watch.ts'
import { wishOf } from '../wish.ts'
import { photographerBody, photographerRegions } from './photographer.ts'
import { pickBody, pickRegions } from './pick.ts'
import { STYLE } from './style.ts'

/** What the server of a session answers. */
export class Pages {
  readonly #watch: Watch
  readonly #photographer = new Streams()
  readonly #pick = new Streams()
  readonly #gathered = new Gathered(() => this.#tell())

  constructor(watch: Watch) {
    this.#watch = watch
  }

  /** Tells all pages what there is to see now. */
  changed(): void {
    this.#gathered.changed()
  }

  readonly handler: Handler = async ({ path, body }): Promise<Reply> => {
    if (body) return path === 'do' ? this.#do(await body.json()) : { status: 404 }
    const view = () => this.#watch.view()
    switch (path) {
      case '':
        return page(`${view().brand}: frames`, photographerBody(view().consent))
      case 'pick':
        return page(`${view().brand}: portraits`, pickBody(view().consent))
      case 'events':
        return {
          stream: (response) =>
            this.#photographer.open(response, { regions: texts(photographerRegions(view())) }),
        }
      case 'pick-events':
        return { stream: (response) => this.#pick.open(response, { regions: this.#picking(view()) }) }
    }
    const loaded = asset(path, { style: STYLE })
    if (loaded) return loaded
    const [folder, digest = '', ...rest] = path.split('/')
    const jpeg = folder === 'picture' && rest.length === 0 ? await this.#watch.picture(digest) : null
    return jpeg ? { type: 'image/jpeg', body: jpeg, isFixed: true } : { status: 404 }
  }

  close(): void {
    this.#gathered.close()
    this.#photographer.close()
    this.#pick.close()
  }

  #tell(): void {
    if (this.#photographer.size + this.#pick.size === 0) return
    const view = this.#watch.view()
    this.#photographer.send({ regions: texts(photographerRegions(view)) })
    this.#pick.send({ regions: this.#picking(view) })
  }

  async #do(sent: { readonly value: unknown } | null): Promise<Reply> {
    const wish = sent && wishOf(sent.value)
    if (!wish) return { status: 400 }
    return { status: (await this.#watch.do(wish)) ? 204 : 409 }
  }

  #picking({ sitting }: View): Record<string, string> {
    return texts(pickRegions(sitting))
  }
}
