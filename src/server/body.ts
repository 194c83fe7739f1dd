import type { IncomingMessage } from 'node:http'

/** Longest JSON that is sent, in bytes: names, numbers and a note. @choice no source */
const MOST_SENT = 64 * 1024

/** What a POST sends, to be read once. */
export interface Body {
  /** How long it says it is, in bytes; null when it does not say. */
  readonly bytes: number | null
  /** As it comes. */
  readonly stream: AsyncIterable<Buffer>
  /** Parsed; null when it is too long or no JSON. */
  readonly json: () => Promise<{ readonly value: unknown } | null>
}

export function bodyOf(request: IncomingMessage): Body {
  const length = request.headers['content-length']
  const stream = request as AsyncIterable<Buffer>
  return {
    bytes: length !== undefined && /^\d{1,15}$/.test(length) ? Number(length) : null,
    stream,
    json: () => parsed(stream),
  }
}

async function parsed(stream: AsyncIterable<Buffer>): Promise<{ value: unknown } | null> {
  const parts: Buffer[] = []
  let length = 0
  for await (const part of stream) {
    length += part.length
    if (length > MOST_SENT) return null
    parts.push(part)
  }
  try {
    return { value: JSON.parse(Buffer.concat(parts).toString('utf8')) as unknown }
  } catch {
    return null
  }
}
