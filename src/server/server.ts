import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { admitted, newToken } from './address.ts'
import { type Body, bodyOf } from './body.ts'

/** A request that was let in. */
interface Request {
  /** Behind the token, decoded by nobody. */
  readonly path: string
  /** What a POST sends; null for a GET. */
  readonly body: Body | null
}

/** What is answered. `stream` takes the response over. */
export type Reply =
  | {
      readonly type: string
      readonly body: string | Buffer
      readonly isFixed?: boolean
      /** Whether browsers are to save it, under the name that the link tells, and not to show it. */
      readonly isSaved?: boolean
      /** Whether it is a document of its own, with its own policy, which must not reach the pages around it. */
      readonly isApart?: boolean
    }
  | { readonly status: 204 | 400 | 404 | 409 }
  | { readonly stream: (response: ServerResponse) => void }

export type Handler = (request: Request) => Promise<Reply> | Reply

export interface PageServerOptions {
  /** Addresses of this machine to listen at: loopback, and others only when somebody asked for that. */
  readonly addresses: readonly string[]
  /** 0 for any that is free. */
  readonly port?: number
  readonly handler: Handler
}

const HEADERS = {
  // Content Security Policy Level 3, W3C: nothing but what this server sends, and no page around this one.
  'content-security-policy':
    "default-src 'none'; img-src 'self'; style-src 'self'; script-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-resource-policy': 'same-origin',
  'cross-origin-opener-policy': 'same-origin',
  'cache-control': 'no-store',
}

/** HTML, 7.1.5: such a document has an origin of its own, whose requests to the pages' server are refused. */
const APART = "sandbox allow-scripts allow-modals; frame-ancestors 'none'"

/** A server of pages for this machine's own user: at loopback, behind an address that nobody can guess. */
export class PageServer {
  readonly token = newToken()
  readonly #handler: Handler
  readonly #servers: Server[] = []
  /** Leads to the page once: what starts a browser is seen by every user of the machine. */
  #once: string | null = null
  #hosts: readonly string[] = []

  private constructor(handler: Handler) {
    this.#handler = handler
  }

  /** @throws the system's error when it can't listen */
  static async start({ addresses, port = 0, handler }: PageServerOptions): Promise<PageServer> {
    const page = new PageServer(handler)
    try {
      for (const address of addresses) await page.#listen(address, page.port || port)
    } catch (error) {
      await page.close()
      throw error
    }
    page.#hosts = addresses.flatMap((address) => page.#names(address))
    return page
  }

  get port(): number {
    const bound = this.#servers[0]?.address() as AddressInfo | null | undefined
    return bound?.port ?? 0
  }

  /** The page's address by one of the addresses that it listens at. */
  urlAt(address: string): string {
    return `http://${address}:${this.port}/${this.token}/`
  }

  /** An address that leads to the page the first time it is asked for, and then no more. */
  onceAt(address: string): string {
    this.#once = newToken()
    return `http://${address}:${this.port}/${this.#once}`
  }

  async close(): Promise<void> {
    for (const server of this.#servers) {
      const closed = new Promise((resolve) => server.close(resolve))
      server.closeAllConnections()
      await closed
    }
  }

  #names(address: string): string[] {
    const names = address === '127.0.0.1' ? [address, 'localhost'] : [address]
    return names.map((name) => `${name}:${this.port}`)
  }

  async #listen(address: string, port: number): Promise<void> {
    const server = createServer((request, response) => {
      void this.#answer(request, response).catch(() => response.destroy())
    })
    await new Promise<void>((resolve, reject) => {
      server.once('error', reject)
      server.listen({ host: address, port }, resolve)
    })
    this.#servers.push(server)
  }

  async #answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const { method, url, headers } = request
    const answer = admitted(
      { method, url, host: headers.host, origin: headers.origin },
      this.#hosts,
      this.token,
    )
    for (const [name, value] of Object.entries(HEADERS)) response.setHeader(name, value)
    if ('refused' in answer && answer.refused === 404 && this.#once !== null && url === `/${this.#once}`) {
      this.#once = null
      response.writeHead(303, { location: `/${this.token}/` }).end()
      return
    }
    if ('refused' in answer) {
      response.writeHead(answer.refused).end()
      return
    }
    const reply = await this.#handler({
      path: answer.path,
      body: method === 'POST' ? bodyOf(request) : null,
    })
    send(reply, response)
  }
}

function send(reply: Reply, response: ServerResponse): void {
  if ('stream' in reply) reply.stream(response)
  else if ('status' in reply) response.writeHead(reply.status).end()
  else {
    const { type, body, isFixed, isSaved, isApart } = reply
    response.setHeader('content-type', type)
    if (isFixed) response.setHeader('cache-control', 'private, max-age=86400, immutable')
    if (isApart) response.setHeader('content-security-policy', APART)
    if (isSaved) response.setHeader('content-disposition', 'attachment')
    response.writeHead(200).end(body)
  }
}
