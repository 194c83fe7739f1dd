import { randomBytes, timingSafeEqual } from 'node:crypto'

/** Bytes of the part of the address that nobody can guess. @choice 128 bits, what RFC 6749, 10.10 asks of such values at least */
const TOKEN_BYTES = 16

export function newToken(): string {
  return randomBytes(TOKEN_BYTES).toString('base64url')
}

/** What a request says of where it goes and where it comes from. */
export interface Asked {
  readonly method: string | undefined
  readonly url: string | undefined
  readonly host: string | undefined
  readonly origin: string | undefined
}

/** The path behind the token, without a question mark and what follows it; or why the request is refused. */
export type Answer = { readonly path: string } | { readonly refused: 403 | 404 | 405 | 421 }

/**
 * Whether a request is one of our own page's. The names that it may come by are known, so that no other name can be made
 * to lead here (DNS rebinding); what changes anything must come from our page itself; and nothing is told to whoever
 * does not know the token, not even that there is something.
 * @param hosts host and port as the page is called by
 */
export function admitted(
  { method, url, host, origin }: Asked,
  hosts: readonly string[],
  token: string,
): Answer {
  if (host === undefined || !hosts.includes(host)) return { refused: 421 }
  const own = `http://${host}`
  if (origin !== undefined && origin !== own) return { refused: 403 }
  if (method === 'POST' && origin !== own) return { refused: 403 }
  if (method !== 'GET' && method !== 'HEAD' && method !== 'POST') return { refused: 405 }
  const [path = ''] = (url ?? '').split('?', 1)
  const [, given = '', ...rest] = path.split('/')
  if (!isSame(given, token) || rest.length === 0) return { refused: 404 }
  return { path: rest.join('/') }
}

function isSame(given: string, token: string): boolean {
  const [one, other] = [Buffer.from(given), Buffer.from(token)]
  return one.length === other.length && timingSafeEqual(one, other)
}
