import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp from 'sharp'
import type { Host } from '../../src/checking/host.ts'
import { run } from '../../src/commands/run.ts'
import { THIS_PROCESS } from '../../src/files/this-process.ts'

const SPEC = `brand: Osprey Lane Veterinary Group
version: 1
naming: { pattern: "{family}-{given}_{staff-id}.jpg" }
roster: staff.csv
consent: Your portrait goes on the team page.
tilt: { max: 3 }
`
const ROSTER = `family,given,staff-id,pick
Bergström,Åsa,01207,
Ikeda,Naoki,13377,0042
`

/** A folder that a test watches, and what the command says of it. */
export class SessionFolder {
  readonly base: string
  readonly folder: string
  #printed = ''
  #complained = ''
  #ended: Promise<number> | null = null
  #stop = new AbortController()
  readonly #waiting = new Set<() => void>()

  private constructor(base: string) {
    this.base = base
    this.folder = join(base, 'shoot')
  }

  static async make(spec = SPEC, roster = ROSTER): Promise<SessionFolder> {
    const made = new SessionFolder(await mkdtemp(join(tmpdir(), 'portrait-gate-watch-')))
    await mkdir(made.folder)
    await writeFile(join(made.base, 'brand.yaml'), spec)
    await writeFile(join(made.base, 'staff.csv'), roster)
    return made
  }

  /** Runs the command until it is stopped; resolves when it has said where its page is. */
  async start(...args: readonly string[]): Promise<string> {
    this.#stop = new AbortController()
    const from = this.#printed.length
    this.#ended = this.run(...args)
    await Promise.race([
      this.until(() => /^The page for the set: /m.test(this.#printed.slice(from))),
      this.#ended,
    ])
    const url = /^The page for the set: (\S+)/m.exec(this.#printed.slice(from))?.[1]
    if (url === undefined) throw new Error(`It did not start: ${this.#printed}${this.#complained}`)
    return url
  }

  /** Runs it to its end. */
  run(...args: readonly string[]): Promise<number> {
    const output = (keep: (text: string) => void) => ({
      isTTY: false,
      write: (text: string) => {
        keep(text)
        for (const look of this.#waiting) look()
      },
    })
    const host: Host = {
      cwd: this.base,
      stdout: output((text) => {
        this.#printed += text
      }),
      stderr: output((text) => {
        this.#complained += text
      }),
      env: {},
      workers: 0,
      userCache: null,
      processes: THIS_PROCESS,
      signal: this.#stop.signal,
    }
    return run(['watch', 'shoot', '--spec', 'brand.yaml', ...args], host)
  }

  async stop(): Promise<number | null> {
    this.#stop.abort()
    return this.#ended
  }

  get printed(): string {
    return this.#printed
  }

  get complained(): string {
    return this.#complained
  }

  /** What it said of frames, by their names: one line each, in its order. */
  frames(): string[] {
    return [...this.#printed.matchAll(/^\d\d:\d\d:\d\d {2}(?:good|CHANGE|look) +(.*)$/gm)].map(
      ([, line]) => line ?? '',
    )
  }

  until(holds: () => boolean): Promise<void> {
    return new Promise((resolve) => {
      const look = () => {
        if (!holds()) return
        this.#waiting.delete(look)
        resolve()
      }
      this.#waiting.add(look)
      look()
    })
  }

  async put(file: string, content: Buffer | string): Promise<void> {
    const path = join(this.folder, file)
    await mkdir(join(path, '..'), { recursive: true })
    await writeFile(path, content)
  }

  async remove(): Promise<void> {
    await this.stop()
    await rm(this.base, { recursive: true, force: true })
  }
}

/** A picture without a face, which is measured in no time; each gray is another content. */
export function grayJpeg(gray: number): Promise<Buffer> {
  const background = { r: gray, g: gray, b: gray }
  return sharp({ create: { width: 64, height: 80, channels: 3, background } })
    .jpeg()
    .toBuffer()
}

/** Sends what a tap on a page sends. */
export async function tap(url: string, wish: unknown): Promise<number> {
  const headers = { 'content-type': 'application/json', origin: new URL(url).origin }
  const { status } = await fetch(`${url}do`, { method: 'POST', headers, body: JSON.stringify(wish) })
  return status
}

/** The parts of a page as a new viewer is given them, or as soon as one of them holds a text. */
export async function shown(url: string, events = 'events', text = ''): Promise<Record<string, string>> {
  const stop = new AbortController()
  const { body } = await fetch(url + events, { signal: stop.signal })
  let sent = ''
  for await (const part of body?.pipeThrough(new TextDecoderStream()) ?? []) {
    sent += part
    if (!sent.endsWith('\n\n')) continue
    const data = [...sent.matchAll(/^data: (.*)$/gm)].at(-1)?.[1]
    sent = ''
    if (data === undefined) continue
    const { regions } = JSON.parse(data) as { regions: Record<string, string> }
    if (!Object.values(regions).some((region) => region.includes(text))) continue
    stop.abort()
    return regions
  }
  throw new Error('The stream ended.')
}
