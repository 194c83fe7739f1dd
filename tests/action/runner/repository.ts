import { execFile } from 'node:child_process'
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { promisify } from 'node:util'

const run = promisify(execFile)
const IDENTITY = { NAME: 'Test', EMAIL: 'test@example.invalid', DATE: '2026-01-01T00:00:00Z' }

/** Files by their paths; null takes one away. */
export type Files = Readonly<Record<string, string | Buffer | null>>

/** A repository on a server, made in a test. */
export class Repository {
  readonly folder: string

  private constructor(folder: string) {
    this.folder = folder
  }

  static async create(temp: string, files: Files): Promise<Repository> {
    const repository = new Repository(await mkdtemp(join(temp, 'origin-')))
    await repository.git('init', '-q', '-b', 'main')
    await repository.git('config', 'uploadpack.allowAnySHA1InWant', 'true')
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
      if (content === null) {
        await rm(full)
        continue
      }
      await mkdir(dirname(full), { recursive: true })
      await writeFile(full, content)
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

  /** Checks a commit out as actions/checkout does; `0` is the whole history. */
  async checkout(workspace: string, sha: string, depth: string): Promise<void> {
    await mkdir(workspace, { recursive: true })
    await git(workspace, 'init', '-q')
    const history = depth === '0' ? [] : [`--depth=${depth}`]
    await git(workspace, 'fetch', '-q', '--no-tags', ...history, `file://${this.folder}`, sha)
    await git(workspace, 'checkout', '-q', '--detach', 'FETCH_HEAD')
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
