import { execFile } from 'node:child_process'
import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { promisify } from 'node:util'

const run = promisify(execFile)
const IDENTITY = { NAME: 'Test', EMAIL: 'test@example.invalid', DATE: '2026-01-01T00:00:00Z' }

/** Files by their paths; null takes one away, or a folder. */
export type Files = Readonly<Record<string, string | Buffer | Link | null>>

/** A symbolic link, by what it says. */
interface Link {
  readonly link: string
}

/** Inputs of actions/checkout. */
export interface CheckoutOptions {
  readonly filter?: string
  readonly submodules?: boolean
}

// Git refuses submodules of the same machine unless it is told.
const FILE_TRANSPORT = ['-c', 'protocol.file.allow=always']

/** A repository on a server, made in a test. */
export class Repository {
  readonly folder: string

  private constructor(folder: string) {
    this.folder = folder
  }

  /** One that is there already. */
  static at(folder: string): Repository {
    return new Repository(folder)
  }

  static async create(temp: string, files: Files): Promise<Repository> {
    const repository = new Repository(await mkdtemp(join(temp, 'origin-')))
    await repository.git('init', '-q', '-b', 'main')
    await repository.git('config', 'uploadpack.allowAnySHA1InWant', 'true')
    await repository.git('config', 'uploadpack.allowFilter', 'true')
    await repository.commit(files)
    return repository
  }

  async git(...args: readonly string[]): Promise<string> {
    return git(this.folder, ...args)
  }

  /** @returns the new commit */
  async commit(files: Files): Promise<string> {
    for (const [path, content] of Object.entries(files)) {
      const full = join(this.folder, path)
      await rm(full, { recursive: true, force: content !== null })
      if (content === null) continue
      await mkdir(dirname(full), { recursive: true })
      if (typeof content === 'object' && 'link' in content) await symlink(content.link, full)
      else await writeFile(full, content)
    }
    await this.git('add', '-A')
    await this.git('commit', '-q', '--allow-empty', '-m', 'A change')
    return this.git('rev-parse', 'HEAD')
  }

  /** A branch with a change, and the merge commit that the server makes for it: the event and the commit. */
  async pullRequest(files: Files): Promise<{ sha: string; event: object }> {
    const base = await this.git('rev-parse', 'main')
    await this.git('checkout', '-q', '-b', `change-${Math.random().toString(36).slice(2)}`)
    const head = await this.commit(files)
    await this.git('checkout', '-q', '--detach', 'main')
    await this.git('merge', '-q', '--no-ff', '-m', 'Merge', head)
    const sha = await this.git('rev-parse', 'HEAD')
    await this.git('checkout', '-q', 'main')
    return { sha, event: { pull_request: { base: { sha: base }, head: { sha: head } } } }
  }

  /** Makes another repository a submodule, at a commit of its own. */
  async addSubmodule(other: Repository, path: string): Promise<void> {
    await this.git(...FILE_TRANSPORT, 'submodule', 'add', '-q', `file://${other.folder}`, path)
  }

  /** Checks a commit out as actions/checkout does; `0` is the whole history. */
  async checkout(
    workspace: string,
    sha: string,
    depth: string,
    options: CheckoutOptions = {},
  ): Promise<void> {
    await mkdir(workspace, { recursive: true })
    await git(workspace, 'init', '-q')
    await git(workspace, 'remote', 'add', 'origin', `file://${this.folder}`)
    const history = depth === '0' ? [] : [`--depth=${depth}`]
    const filter = options.filter === undefined ? [] : [`--filter=${options.filter}`]
    await git(workspace, 'fetch', '-q', '--no-tags', ...history, ...filter, 'origin', sha)
    await git(workspace, 'checkout', '-q', '--detach', 'FETCH_HEAD')
    if (options.submodules) await git(workspace, ...FILE_TRANSPORT, 'submodule', 'update', '-q', '--init')
  }
}

/** Without the settings of whoever runs the tests. */
export async function git(folder: string, ...args: readonly string[]): Promise<string> {
  const who = ['AUTHOR', 'COMMITTER'].flatMap((role) =>
    Object.entries(IDENTITY).map(([key, value]) => [`GIT_${role}_${key}`, value]),
  )
  const env = {
    PATH: process.env.PATH,
    GIT_CONFIG_GLOBAL: '/dev/null',
    GIT_CONFIG_NOSYSTEM: '1',
    ...Object.fromEntries(who),
  }
  const { stdout } = await run('git', ['-C', folder, ...args], { env })
  return stdout.trim()
}
