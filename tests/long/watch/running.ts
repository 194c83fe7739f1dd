import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { join } from 'node:path'
import { released } from '../../package/released.ts'

/** The command as a process of its own, which can be killed. */
export class Running {
  readonly #child: ChildProcess
  #printed = ''

  private constructor(child: ChildProcess) {
    this.#child = child
    for (const stream of [child.stdout, child.stderr])
      stream?.setEncoding('utf8').on('data', (text: string) => {
        this.#printed += text
      })
  }

  /** @param base a folder with brand.yaml and shoot/ */
  static async start(base: string, ...args: readonly string[]): Promise<Running> {
    const cli = join(await released(), 'bundle', 'start.cjs')
    const child = spawn(process.execPath, [cli, 'watch', 'shoot', '--spec', 'brand.yaml', ...args], {
      cwd: base,
    })
    return new Running(child)
  }

  get #isOver(): boolean {
    return this.#child.exitCode !== null || this.#child.signalCode !== null
  }

  get printed(): string {
    return this.#printed
  }

  /** Address of the page, as soon as it is told. */
  async url(): Promise<string> {
    for (;;) {
      const url = /^The page for the set: (\S+)/m.exec(this.#printed)?.[1]
      if (url !== undefined) return url
      if (this.#isOver) throw new Error(`It ended: ${this.#printed}`)
      await Promise.race([once(this.#child.stdout ?? this.#child, 'data'), once(this.#child, 'close')])
    }
  }

  /** Stops it where it is, as a machine that falls asleep does, or has it go on. */
  sleep(isAsleep: boolean): void {
    this.#child.kill(isAsleep ? 'SIGSTOP' : 'SIGCONT')
  }

  /** Resolves when it has ended. */
  async end(signal: 'SIGKILL' | 'SIGTERM' = 'SIGTERM'): Promise<void> {
    if (this.#isOver) return
    const ended = once(this.#child, 'close')
    this.#child.kill(signal)
    await ended
  }
}
