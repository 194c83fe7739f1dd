import { basename, dirname, join, resolve } from 'node:path'
import type { Host } from '../checking/host.ts'
import { type ReadStandard, readStandard } from '../checking/standard.ts'
import { UsageError } from '../checking/usage-error.ts'
import { firstStyle, lookInto, rememberStyle, type StyleFolder } from './house-style.ts'
import { quietHost } from './receiver.ts'

/** The house style that deliveries are judged by, and the folder in which another may be chosen. */
export class StyleChoice {
  readonly #host: Host
  #spec: string | null = null
  #standard: ReadStandard | null = null
  #problem: string | null = null
  #folder: StyleFolder
  #isOpen = false

  private constructor(host: Host, folder: StyleFolder) {
    this.#host = host
    this.#folder = folder
  }

  /** @param given path of the spec; null to take the usual one, the last one, or none */
  static async start(given: string | null, host: Host): Promise<StyleChoice> {
    const { cwd, userCache } = host
    const spec = given === null ? await firstStyle(cwd, userCache) : resolve(cwd, given)
    const choice = new StyleChoice(host, await lookInto(spec === null ? cwd : dirname(spec)))
    if (spec === null) choice.#isOpen = true
    else await choice.#read(spec)
    return choice
  }

  /** Name of the spec's file; null when none is chosen. */
  get spec(): string | null {
    return this.#spec && basename(this.#spec)
  }

  /** Null when none is chosen, or it has problems. */
  get standard(): ReadStandard | null {
    return this.#standard
  }

  /** What is wrong with the spec or what goes with it, in lines; null when nothing is. */
  get problem(): string | null {
    return this.#problem
  }

  get folder(): StyleFolder {
    return this.#folder
  }

  /** Whether the list to choose from is shown. */
  get isOpen(): boolean {
    return this.#isOpen
  }

  /** Shows the list as the folder is now, or no more. */
  async show(isOpen: boolean): Promise<void> {
    if (isOpen) this.#folder = await lookInto(this.#folder.folder)
    this.#isOpen = isOpen
  }

  /** Looks into a folder of those listed, or the one above; false when it is not there. */
  async look(name: string | null): Promise<boolean> {
    const { folder, above, folders } = this.#folder
    const to = name === null ? above : folders.includes(name) ? join(folder, name) : null
    if (to === null) return false
    this.#folder = await lookInto(to)
    return true
  }

  /** Takes a spec of those listed; false when it is not there. */
  async choose(name: string): Promise<boolean> {
    const { folder, specs } = this.#folder
    if (!specs.includes(name)) return false
    await this.#read(join(folder, name))
    return true
  }

  async #read(spec: string): Promise<void> {
    const said: string[] = []
    const host = { ...quietHost(this.#host, said), cwd: dirname(spec) }
    this.#spec = spec
    this.#problem = null
    this.#standard = await readStandard({ spec: basename(spec), cache: false, rehash: false }, host).catch(
      (error: unknown) => {
        if (!(error instanceof UsageError)) throw error
        said.push(error.message)
        return null
      },
    )
    this.#isOpen = this.#standard === null
    if (this.#standard) await rememberStyle(spec, this.#host.userCache, this.#host.signal)
    else this.#problem = said.join('').trim()
  }
}
