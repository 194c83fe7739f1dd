import { execFile } from 'node:child_process'
import { randomBytes } from 'node:crypto'
import { existsSync } from 'node:fs'
import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { promisify } from 'node:util'

const run = promisify(execFile)
const COMMIT = [
  ['add', '-A'],
  ['commit', '-q', '--allow-empty', '-m', 'A change'],
]
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
    await repository.#write(files)
    await gitEach(
      repository.folder,
      ['init', '-q', '-b', 'main'],
      ['config', 'uploadpack.allowAnySHA1InWant', 'true'],
      ['config', 'uploadpack.allowFilter', 'true'],
      ...COMMIT,
    )
    return repository
  }

  async git(...args: readonly string[]): Promise<string> {
    return git(this.folder, ...args)
  }

  /** @returns the new commit */
  async commit(files: Files): Promise<string> {
    await this.#write(files)
    return gitEach(this.folder, ...COMMIT, ['rev-parse', 'HEAD'])
  }

  async #write(files: Files): Promise<void> {
    for (const [path, content] of Object.entries(files)) {
      const full = join(this.folder, path)
      await rm(full, { recursive: true, force: content !== null })
      if (content === null) continue
      await mkdir(dirname(full), { recursive: true })
      if (typeof content === 'object' && 'link' in content) await symlink(content.link, full)
      else await writeFile(full, content)
    }
  }

  /** A branch with a change, and the merge commit that the server makes for it: the event and the commit. */
  async pullRequest(files: Files): Promise<{ sha: string; event: object }> {
    await this.#write(files)
    const commits = await gitEach(
      this.folder,
      ['checkout', '-q', '-b', `change-${randomBytes(6).toString('hex')}`],
      ...COMMIT,
      ['rev-parse', 'main', 'HEAD'],
      ['checkout', '-q', '--detach', 'main'],
      // What merging gives, since main has nothing that the branch lacks.
      ['merge', '-q', '--no-ff', '-m', 'Merge', '-'],
      ['rev-parse', 'HEAD'],
      ['checkout', '-q', 'main'],
    )
    const [base, head, sha = ''] = commits.split('\n')
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
    const history = depth === '0' ? [] : [`--depth=${depth}`]
    const filter = options.filter === undefined ? [] : [`--filter=${options.filter}`]
    await gitEach(
      workspace,
      ['init', '-q'],
      ['remote', 'add', 'origin', `file://${this.folder}`],
      ['fetch', '-q', '--no-tags', ...history, ...filter, 'origin', sha],
      ['checkout', '-q', '--detach', 'FETCH_HEAD'],
    )
    // Without its file there are none, and the command that looks for them starts a dozen processes.
    if (options.submodules && existsSync(join(workspace, '.gitmodules')))
      await git(workspace, ...FILE_TRANSPORT, 'submodule', 'update', '-q', '--init')
  }
}

/** Without the settings of whoever runs the tests. */
export async function git(folder: string, ...args: readonly string[]): Promise<string> {
  const { stdout } = await run('git', ['-C', folder, ...args], { env: environment() })
  return stdout.trim()
}

/**
 * Several in turn, by one shell, up to the first that fails: a process as large as that of the tests takes longer to fork
 * than git takes for its work.
 */
export async function gitEach(folder: string, ...commands: readonly (readonly string[])[]): Promise<string> {
  const quoted = (arg: string) => `'${arg.replaceAll("'", "'\\''")}'`
  const script = commands.map((args) => ['git', ...args.map(quoted)].join(' ')).join(' && ')
  const { stdout } = await run('sh', ['-c', script], { cwd: folder, env: environment() })
  return stdout.trim()
}

function environment(): NodeJS.ProcessEnv {
  const who = ['AUTHOR', 'COMMITTER'].flatMap((role) =>
    Object.entries(IDENTITY).map(([key, value]) => [`GIT_${role}_${key}`, value]),
  )
  return {
    PATH: process.env.PATH,
    GIT_CONFIG_GLOBAL: '/dev/null',
    GIT_CONFIG_NOSYSTEM: '1',
    // No tidying up after each command.
    GIT_CONFIG_COUNT: '1',
    GIT_CONFIG_KEY_0: 'maintenance.auto',
    GIT_CONFIG_VALUE_0: 'false',
    ...Object.fromEntries(who),
  }
}
