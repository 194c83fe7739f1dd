import { request } from 'node:http'
import { networkInterfaces } from 'node:os'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { PageServer } from '../../src/server/server.ts'

let server: PageServer
const asked: { path: string; sent: unknown }[] = []

beforeAll(async () => {
  server = await PageServer.start({
    addresses: ['127.0.0.1'],
    handler: async ({ path, body }) => {
      const json = body && (await body.json())
      if (body && !json) return { status: 400 }
      asked.push({ path, sent: json?.value })
      return { type: 'text/plain', body: `at ${path}`, isApart: path === 'apart' }
    },
  })
})
afterAll(() => server.close())

interface Options {
  readonly path?: string
  readonly method?: string
  readonly headers?: Record<string, string>
  readonly body?: string
  readonly address?: string
}

/** A request as any program can make it: nothing is added to the headers or done to the path. */
function ask({
  path = `/${server.token}/`,
  method = 'GET',
  headers = {},
  body = '',
  address = '127.0.0.1',
}: Options) {
  return new Promise<{ status: number; headers: NodeJS.Dict<string | string[]>; text: string }>(
    (resolve, reject) => {
      const sent = request({ host: address, port: server.port, path, method, headers }, (response) => {
        let text = ''
        response.on('data', (part) => {
          text += part
        })
        response.on('end', () =>
          resolve({ status: response.statusCode ?? 0, headers: response.headers, text }),
        )
      })
      sent.on('error', reject)
      sent.end(body)
    },
  )
}
const own = () => `127.0.0.1:${server.port}`

describe('the page server', () => {
  it('answers behind its token, by either name of this machine', async () => {
    expect(await ask({})).toMatchObject({ status: 200, text: 'at ' })
    expect(await ask({ headers: { host: `localhost:${server.port}` } })).toMatchObject({ status: 200 })
    expect(await ask({ path: `/${server.token}/picture/a?x=1` })).toMatchObject({ text: 'at picture/a' })
    expect(server.urlAt('127.0.0.1')).toBe(`http://${own()}/${server.token}/`)
  })

  it('makes a token that can not be guessed: 128 bits', () => {
    expect(Buffer.from(server.token, 'base64url')).toHaveLength(16)
  })

  // DNS rebinding: a stranger's name is made to lead to this machine, and the browser takes its page for one of ours.
  it.each(['evil.example', 'evil.example:80', '127.0.0.1', '127.0.0.1:1', '[::1]:80'])(
    'refuses the Host %j',
    async (host) => {
      asked.length = 0
      expect((await ask({ headers: { host } })).status).toBeGreaterThanOrEqual(400)
      expect(asked).toEqual([])
    },
  )

  it.each(['http://evil.example', 'null', 'https://127.0.0.1', 'http://127.0.0.1:1'])(
    'refuses the Origin %j, whatever is asked',
    async (origin) => {
      asked.length = 0
      expect(await ask({ headers: { origin } })).toMatchObject({ status: 403 })
      expect(await ask({ method: 'POST', headers: { origin }, body: '{}' })).toMatchObject({ status: 403 })
      expect(asked).toEqual([])
    },
  )

  it('lets nothing be changed by a request that does not say where it comes from', async () => {
    expect(await ask({ method: 'POST', body: '{}' })).toMatchObject({ status: 403 })
    const headers = { origin: `http://${own()}` }
    expect(await ask({ method: 'POST', headers, body: '{"a":1}' })).toMatchObject({ status: 200 })
    expect(asked.at(-1)).toEqual({ path: '', sent: { a: 1 } })
  })

  it.each(['/', '', '/x/', '//', '/../etc/passwd', '/%2e%2e/'])('knows nothing at %j', async (path) => {
    asked.length = 0
    expect(await ask({ path: path === '' ? '/' : path })).toMatchObject({ status: 404, text: '' })
    expect(asked).toEqual([])
  })

  it('knows nothing behind a token that is nearly right', async () => {
    const { token } = server
    const wrong = [token.slice(1), `${token}x`, token.toUpperCase() === token ? 'a' : token.toUpperCase()]
    for (const one of wrong) expect(await ask({ path: `/${one}/` })).toMatchObject({ status: 404 })
    expect(await ask({ path: `/${token}` })).toMatchObject({ status: 404 })
  })

  it.each(['PUT', 'DELETE', 'OPTIONS', 'TRACE'])('refuses the method %s', async (method) => {
    expect(await ask({ method })).toMatchObject({ status: 405 })
  })

  it('takes no more than a short piece of JSON', async () => {
    const headers = { origin: `http://${own()}` }
    expect(await ask({ method: 'POST', headers, body: 'no json' })).toMatchObject({ status: 400 })
    const long = JSON.stringify('x'.repeat(100_000))
    expect(await ask({ method: 'POST', headers, body: long })).toMatchObject({ status: 400 })
  })

  it('lets the page load from here only, and be framed and kept by nobody', async () => {
    const { headers } = await ask({})
    expect(headers['content-security-policy']).toMatch(/^default-src 'none'; /)
    expect(headers['content-security-policy']).not.toMatch(/unsafe|https?:|data:|\*/)
    expect(headers).toMatchObject({
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
      'cache-control': 'no-store',
      'cross-origin-resource-policy': 'same-origin',
    })
    expect(headers).not.toHaveProperty('access-control-allow-origin')
  })

  it('lets a document apart have its own policy, and its own origin', async () => {
    const { headers } = await ask({ path: `/${server.token}/apart` })
    expect(headers['content-security-policy']).toBe(
      "sandbox allow-scripts allow-modals; frame-ancestors 'none'",
    )
  })

  it('leads to the page by another address once, and only by the names of this machine', async () => {
    const path = new URL(server.onceAt('127.0.0.1')).pathname
    expect(await ask({ path, headers: { host: 'evil.example' } })).toMatchObject({ status: 421 })
    const { status, headers } = await ask({ path })
    expect([status, headers.location]).toEqual([303, `/${server.token}/`])
    expect(await ask({ path })).toMatchObject({ status: 404 })
  })

  it('can not be reached from another machine', async () => {
    const others = Object.values(networkInterfaces())
      .flat()
      .flatMap((one) => (one && !one.internal && one.family === 'IPv4' ? [one.address] : []))
    for (const address of ['127.0.0.2', ...others])
      await expect(ask({ address })).rejects.toThrow('ECONNREFUSED')
  })
})
