import type { Received } from '../../hand-over/receive.ts'
import { htmlReport } from '../../report/html/html.ts'

const FRONT = 'report.html'

/** The pages of the full report on what was received, by their names. They are made when somebody looks, and the last is kept. */
export class ReportPages {
  readonly #signal: AbortSignal
  #last: { readonly of: Received; readonly pages: Promise<ReadonlyMap<string, string>> } | null = null

  constructor(signal: AbortSignal) {
    this.#signal = signal
  }

  async page(received: Received, name: string): Promise<string | null> {
    if (this.#last?.of !== received) this.#last = { of: received, pages: this.#make(received) }
    return (await this.#last.pages).get(name) ?? null
  }

  async #make({ receipt: { report }, found }: Received): Promise<ReadonlyMap<string, string>> {
    if (report === null || found === null) return new Map()
    // The picture library, which is not needed to show the desk.
    const { makePictures } = await import('../../report/html/pictures.ts')
    const pictures = await makePictures(report, found.files, this.#signal)
    const { index, pages } = htmlReport(report, { pictures, at: new Date(), name: FRONT })
    return new Map([[FRONT, index], ...pages])
  }
}
