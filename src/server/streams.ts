import type { ServerResponse } from 'node:http'

/** Time between signs of life, in ms, by which either side finds out that the other has gone. @choice no source */
const ALIVE_MS = 15_000

/** Pages that are told of what happens, by server-sent events (WHATWG HTML, 9.2). */
export class Streams {
  readonly #open = new Set<ServerResponse>()
  readonly #timer: NodeJS.Timeout

  constructor() {
    this.#timer = setInterval(() => this.#each(': \n\n'), ALIVE_MS)
    this.#timer.unref()
  }

  /** Makes of a response a stream, and sends the first message on it. */
  open(response: ServerResponse, first: unknown): void {
    response.writeHead(200, { 'content-type': 'text/event-stream' })
    response.write(`retry: 1000\n\n${message(first)}`)
    this.#open.add(response)
    response.on('close', () => this.#open.delete(response))
  }

  send(value: unknown): void {
    this.#each(message(value))
  }

  get size(): number {
    return this.#open.size
  }

  close(): void {
    clearInterval(this.#timer)
    for (const response of this.#open) response.end()
    this.#open.clear()
  }

  #each(text: string): void {
    for (const response of this.#open) response.write(text)
  }
}

function message(value: unknown): string {
  return `data: ${JSON.stringify(value)}\n\n`
}
