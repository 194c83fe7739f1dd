import { type ChildProcess, execFile, type StdioOptions, spawn } from 'node:child_process'
import { open } from 'node:fs/promises'
import { UsageError } from '../../checking/usage-error.ts'
import { Objects } from './objects.ts'

export interface GitAnswer {
  readonly ok: boolean
  readonly stdout: string
}

// A line of 200 bytes for each of 300,000 files.
const MOST_BYTES = 64 * 1024 * 1024

/*
 * In a job's container the checkout belongs to another user, which git refuses unless it is told. A tree can hold files
 * that look like a bare repository, with settings that run programs: only `.git` is one. No setting of the repository
 * may start a program.
 */
const SETTINGS = [
  'safe.directory=*',
  'safe.bareRepository=explicit',
  'core.fsmonitor=false',
  'core.hooksPath=/dev/null',
].flatMap((setting) => ['-c', setting])

/** Reads a git repository, never writes to it and never asks a server. */
export class Git {
  /** Absolute path in the repository's working tree. */
  readonly folder: string
  readonly #env: Readonly<Record<string, string | undefined>>
  readonly #signal: AbortSignal
  readonly #objects = new Objects((args) => this.#started(args, this.#env, ['pipe', 'pipe', 'ignore']))

  /** @param env of the process; what points git at another repository is left out */
  constructor(folder: string, env: Readonly<Record<string, string | undefined>>, signal: AbortSignal) {
    this.folder = folder
    this.#signal = signal
    const own = Object.entries(env).filter(
      ([name]) => !name.startsWith('GIT_') || name.startsWith('GIT_CONFIG'),
    )
    this.#env = {
      ...Object.fromEntries(own),
      GIT_NO_LAZY_FETCH: '1',
      GIT_NO_REPLACE_OBJECTS: '1',
      GIT_OPTIONAL_LOCKS: '0',
      GIT_TERMINAL_PROMPT: '0',
      GIT_LITERAL_PATHSPECS: '1',
    }
  }

  /** The same git in another folder. */
  in(folder: string): Git {
    return new Git(folder, this.#env, this.#signal)
  }

  /** Never rejects for what git answers. @throws the signal's reason when it is aborted */
  async ask(...args: readonly string[]): Promise<GitAnswer> {
    const { ok, bytes } = await this.#run(args)
    return { ok, stdout: bytes.toString('utf8') }
  }

  /**
   * What git answers, when it can.
   * @param question what git can't do when it can't, after "Git can't": "list the files of commit 0123abcd"
   * @throws UsageError when git fails; the signal's reason when it is aborted
   */
  async read(question: string, ...args: readonly string[]): Promise<Buffer> {
    const { ok, bytes } = await this.#run(args)
    if (ok) return bytes
    throw cannot(question)
  }

  /**
   * The content of an object; null when the repository lacks it, or it takes more than 64 MiB.
   * @param name its hash, or what git makes one of, without line breaks
   * @throws the signal's reason when it is aborted
   */
  async object(name: string): Promise<Buffer | null> {
    const content = await this.#objects.read(name)
    if (this.#signal.aborted) throw this.#signal.reason
    return content
  }

  /** Ends what was started for objects. */
  close(): void {
    this.#objects.close()
  }

  #run(args: readonly string[]): Promise<{ ok: boolean; bytes: Buffer }> {
    const all = [...SETTINGS, '-C', this.folder, ...args]
    const options = {
      env: this.#env,
      signal: this.#signal,
      maxBuffer: MOST_BYTES,
      encoding: 'buffer' as const,
    }
    return new Promise((resolve, reject) => {
      execFile('git', all, options, (error, bytes) => {
        if (this.#signal.aborted) reject(this.#signal.reason)
        else resolve({ ok: error === null, bytes })
      })
    })
  }

  /**
   * Writes the content of a file that a commit has into a new file, however large it is.
   * @param oid of the content @returns whether git has it
   * @throws the signal's reason when it is aborted; Error when the file can't be written
   */
  async save(oid: string, target: string): Promise<boolean> {
    const file = await open(target, 'wx', 0o600)
    try {
      return await this.#ended(['cat-file', 'blob', oid], this.#env, ['ignore', file.fd, 'ignore'])
    } finally {
      await file.close()
    }
  }

  /**
   * Lets git work on an input, of which only the end is told: whether it came to a good one.
   * @param settings of git for this time, which no list of processes shows
   * @throws the signal's reason when it is aborted
   */
  feed(
    input: Buffer,
    settings: Readonly<Record<string, string>>,
    ...args: readonly string[]
  ): Promise<boolean> {
    const given = Number(this.#env.GIT_CONFIG_COUNT ?? 0)
    const own = Object.entries(settings).flatMap(([key, value], index) => [
      [`GIT_CONFIG_KEY_${given + index}`, key],
      [`GIT_CONFIG_VALUE_${given + index}`, value],
    ])
    const count = String(given + Object.keys(settings).length)
    const env = { ...this.#env, ...Object.fromEntries(own), GIT_CONFIG_COUNT: count }
    return this.#ended(args, env, ['pipe', 'ignore', 'ignore'], input)
  }

  /** Runs git to its end: whether that was a good one. @throws the signal's reason when it is aborted */
  #ended(
    args: readonly string[],
    env: Readonly<Record<string, string | undefined>>,
    stdio: ['pipe' | 'ignore', 'ignore' | number, 'ignore'],
    input: Buffer | null = null,
  ): Promise<boolean> {
    const child = this.#started(args, env, stdio)
    return new Promise((resolve, reject) => {
      const end = (ok: boolean) => (this.#signal.aborted ? reject(this.#signal.reason) : resolve(ok))
      child.on('error', () => end(false))
      child.on('close', (code) => end(code === 0))
      // One that ends before it has read all closes the pipe; its exit code tells.
      child.stdin?.on('error', () => {})
      child.stdin?.end(input)
    })
  }

  #started(
    args: readonly string[],
    env: Readonly<Record<string, string | undefined>>,
    stdio: StdioOptions,
  ): ChildProcess {
    return spawn('git', [...SETTINGS, '-C', this.folder, ...args], { env, signal: this.#signal, stdio })
  }

  /** The same repository from its top, and the commit that is checked out; null when there is none of both, or no git. */
  async checkedOut(): Promise<{ readonly git: Git; readonly commit: string } | null> {
    const { ok, stdout } = await this.ask('rev-parse', '--show-toplevel', 'HEAD^{commit}')
    const [, folder, commit] = /^(.+?)\r?\n([0-9a-f]+)\r?\n$/s.exec(stdout) ?? []
    return ok && folder && commit ? { git: this.in(folder), commit } : null
  }

  async hasCommit(commit: string): Promise<boolean> {
    return (await this.object(`${commit}^{commit}`)) !== null
  }

  async isShallow(): Promise<boolean> {
    const answer = await this.read('tell whether history is missing', 'rev-parse', '--is-shallow-repository')
    return answer.toString().trim() === 'true'
  }

  /** Parents as the commit itself names them: a shallow clone hides those that it does not have. */
  async parents(commit: string): Promise<string[]> {
    const content = await this.object(commit)
    const [header = ''] = content?.toString('latin1').split('\n\n', 1) ?? []
    return [...header.matchAll(/^parent ([0-9a-f]+)$/gm)].map(([, parent = '']) => parent)
  }
}

/** @param question what git can't do, after "Git can't": "list the files of commit 0123abcd" */
export function cannot(question: string): UsageError {
  return new UsageError(
    `Git can't ${question}. Set fetch-depth: 0 and no filter in the checkout step, and submodules: true where there are any.`,
  )
}
