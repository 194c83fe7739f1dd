import { execFile } from 'node:child_process'

export interface GitAnswer {
  readonly ok: boolean
  readonly stdout: string
}

// The names of 100,000 portraits.
const MOST_BYTES = 32 * 1024 * 1024

/** Reads a git repository, never writes to it and never asks a server. */
export class Git {
  readonly folder: string
  readonly #env: Readonly<Record<string, string | undefined>>
  readonly #signal: AbortSignal

  /** @param folder absolute path in the repository's working tree */
  constructor(folder: string, env: Readonly<Record<string, string | undefined>>, signal: AbortSignal) {
    this.folder = folder
    this.#signal = signal
    this.#env = {
      ...env,
      GIT_NO_LAZY_FETCH: '1',
      GIT_OPTIONAL_LOCKS: '0',
      GIT_TERMINAL_PROMPT: '0',
      GIT_LITERAL_PATHSPECS: '1',
    }
  }

  /** Never rejects for what git answers. @throws the signal's reason when it is aborted */
  ask(...args: readonly string[]): Promise<GitAnswer> {
    // In a job's container the checkout belongs to another user, which git refuses unless it is told.
    const all = ['-c', 'safe.directory=*', '-c', 'core.fsmonitor=false', '-C', this.folder, ...args]
    const options = { env: this.#env, signal: this.#signal, maxBuffer: MOST_BYTES, encoding: 'utf8' as const }
    return new Promise((resolve, reject) => {
      execFile('git', all, options, (error, stdout) => {
        if (this.#signal.aborted) reject(this.#signal.reason)
        else resolve({ ok: error === null, stdout })
      })
    })
  }

  /** The same repository from its top; null when there is no repository, or no git. */
  async top(): Promise<Git | null> {
    const { ok, stdout } = await this.ask('rev-parse', '--show-toplevel')
    const folder = stdout.replace(/\r?\n$/, '')
    return ok && folder !== '' ? new Git(folder, this.#env, this.#signal) : null
  }

  async hasCommit(commit: string): Promise<boolean> {
    return (await this.ask('cat-file', '-e', `${commit}^{commit}`)).ok
  }

  async isShallow(): Promise<boolean> {
    return (await this.ask('rev-parse', '--is-shallow-repository')).stdout.trim() === 'true'
  }

  /** Parents as the commit itself names them: a shallow clone hides those that it does not have. */
  async parents(commit: string): Promise<string[]> {
    const { stdout } = await this.ask('cat-file', 'commit', commit)
    const [header = ''] = stdout.split('\n\n', 1)
    return [...header.matchAll(/^parent ([0-9a-f]+)$/gm)].map(([, parent = '']) => parent)
  }
}
