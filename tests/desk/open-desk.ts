import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import type { Host } from '../../src/checking/host.ts'
import { run } from '../../src/commands/run.ts'
import { THIS_PROCESS } from '../../src/files/this-process.ts'
import { picture, SPEC } from '../action/runner/deliveries.ts'

/** What the studio judges by, and what it asks to be let through. */
const STUDIO = {
  'brand.yaml': SPEC,
  'staff.csv': 'family,given\nAdeyemi,Folasade\nLund,Bjørn\n',
  'waivers.yaml': `- rule: pixel-size
  person: Adeyemi Folasade
  reason: The large file was lost.
  approved-by: Mika Oduya
  until: 2099-12-31
`,
}

/** The client's own: the same house style with another version and no exceptions. */
const CLIENT = {
  'client/brand.yaml': SPEC.replace(/^waivers:.*\n/m, '').replace('version: 1', 'version: 2'),
  'client/staff.csv': STUDIO['staff.csv'],
}

/** A desk that a test sits at, in a folder of its own. */
export class OpenDesk {
  readonly base: string
  readonly #stop = new AbortController()
  #printed = ''
  #ended: Promise<number> | null = null

  private constructor(base: string) {
    this.base = base
  }

  /** A folder with `client/`, which the desk is opened in, and the studio's `delivery/`, of which one file is too small. */
  static async make(): Promise<OpenDesk> {
    const desk = new OpenDesk(await mkdtemp(join(tmpdir(), 'desk ')))
    await desk.put({
      ...STUDIO,
      ...CLIENT,
      'delivery/Adeyemi-Folasade.jpg': await picture(60, 75, 90),
      'delivery/Lund-Bjørn.jpg': await picture(80, 100, 180),
    })
    return desk
  }

  async put(files: Readonly<Record<string, string | Buffer>>): Promise<void> {
    for (const [name, content] of Object.entries(files)) {
      await mkdir(dirname(join(this.base, name)), { recursive: true })
      await writeFile(join(this.base, name), content)
    }
  }

  /** Packs the delivery as the studio does. */
  async seal(output: string): Promise<void> {
    const code = await run(['seal', 'delivery', '--no-cache', '--output', output], this.#host(this.base))
    if (code !== 0) throw new Error(`It was not sealed: ${this.#printed}`)
  }

  /** Opens the desk; resolves with its page's address. */
  async open(...args: readonly string[]): Promise<string> {
    const from = this.#printed.length
    this.#ended = run(['desk', '--no-open', ...args], this.#host(join(this.base, 'client')))
    for (;;) {
      const url = /^The page to receive deliveries on: (\S+)/m.exec(this.#printed.slice(from))?.[1]
      if (url !== undefined) return url
      const isOver = await Promise.race([this.#ended.then(() => true), new Promise((go) => setImmediate(go))])
      if (isOver === true) throw new Error(`It did not open: ${this.#printed}`)
    }
  }

  /** The exit code, once it has ended. */
  get ended(): Promise<number> | null {
    return this.#ended
  }

  async remove(): Promise<void> {
    this.#stop.abort()
    await this.#ended
    await rm(this.base, { recursive: true, force: true })
  }

  #host(cwd: string): Host {
    const write = (text: string) => {
      this.#printed += text
    }
    return {
      ...{ cwd, stdout: { isTTY: false, write }, stderr: { isTTY: false, write }, env: {}, workers: 0 },
      ...{ userCache: join(this.base, 'cache'), processes: THIS_PROCESS, signal: this.#stop.signal },
    }
  }
}
