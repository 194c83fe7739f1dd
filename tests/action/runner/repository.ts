import { existsSync } from 'node:fs'
import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { emptyRepository, git, gitEach, SERVES_ANY } from './git.ts'
import { importCommits, type Node, type Paths } from './import.ts'

const COMMIT = [
  ['add', '-A'],
  ['commit', '-q', '--allow-empty', '-m', 'A change'],
]

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

/** The event of a pull request, and the merge commit that the server makes for it. */
export interface Request {
  readonly sha: string
  readonly event: { readonly pull_request: { readonly base: Tip; readonly head: Tip } }
}

interface Tip {
  readonly sha: string
}

export interface Requested extends Request {
  readonly repository: Repository
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
    await emptyRepository(join(repository.folder, '.git'), SERVES_ANY)
    await repository.#write(files)
    await gitEach(repository.folder, ...COMMIT)
    return repository
  }

  /**
   * What `create` and `pullRequest` make, written by one process: it has neither a working tree nor filters.
   * @param change from the files of its base
   */
  static async withRequest(temp: string, base: Files, change: Files): Promise<Requested> {
    const repository = new Repository(await mkdtemp(join(temp, 'origin-')))
    await emptyRepository(repository.folder, SERVES_ANY)
    return { repository, ...(await importRequest(repository.folder, base, change)) }
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

  /** A change to main, and the merge commit that the server makes for it, neither on a branch. */
  async pullRequest(files: Files): Promise<Request> {
    await this.#write(files)
    const commits = await gitEach(
      this.folder,
      ...COMMIT,
      ['rev-parse', 'HEAD^', 'HEAD'],
      // What merging gives, since main has nothing that the change lacks.
      ['commit-tree', '-m', 'Merge', '-p', 'HEAD^', '-p', 'HEAD', 'HEAD^{tree}'],
      ['reset', '-q', '--hard', 'HEAD^'],
    )
    const [base = '', head = '', sha = ''] = commits.split('\n')
    return { sha, event: eventOf(base, head) }
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
    const origin = `url = "file://${this.folder}"\n\tfetch = +refs/heads/*:refs/remotes/origin/*`
    await emptyRepository(join(workspace, '.git'), `[remote "origin"]\n\t${origin}\n`)
    const history = depth === '0' ? [] : [`--depth=${depth}`]
    const filter = options.filter === undefined ? [] : [`--filter=${options.filter}`]
    await gitEach(
      workspace,
      ['fetch', '-q', '--no-tags', ...history, ...filter, 'origin', sha],
      ['checkout', '-q', '--detach', 'FETCH_HEAD'],
    )
    if (options.submodules) await checkoutSubmodules(workspace)
  }
}

/** Checks out the submodules of what is checked out. */
export async function checkoutSubmodules(workspace: string): Promise<void> {
  // Without its file there are none, and the command that looks for them starts a dozen processes.
  if (existsSync(join(workspace, '.gitmodules')))
    await git(workspace, ...FILE_TRANSPORT, 'submodule', 'update', '-q', '--init')
}

/** A pull request checked out as actions/checkout does with `fetch-depth: 2`, without a server to fetch it from. */
export async function checkoutRequest(workspace: string, base: Files, change: Files): Promise<Request> {
  await emptyRepository(join(workspace, '.git'), '')
  const request = await importRequest(workspace, base, change)
  await writeFile(join(workspace, '.git', 'shallow'), `${request.event.pull_request.head.sha}\n`)
  await git(workspace, 'checkout', '-q', '--force', '--detach', request.sha)
  return request
}

/** Writes a base, the change, and what merging it gives into an empty repository. */
async function importRequest(folder: string, base: Files, change: Files): Promise<Request> {
  const before = changed(new Map(), base)
  const after = changed(before, change)
  const [main = '', head = '', sha = ''] = await importCommits(folder, [
    { paths: before, parents: [] },
    { paths: after, parents: [1] },
    { paths: after, parents: [1, 2] },
  ])
  return { sha, event: eventOf(main, head) }
}

function eventOf(base: string, head: string): Request['event'] {
  return { pull_request: { base: { sha: base }, head: { sha: head } } }
}

/** What a commit has once files are changed that it had. @throws Error when there is nothing to take away, or no folder for a file */
function changed(before: Paths, files: Files): Paths {
  const paths = new Map(before)
  for (const [path, content] of Object.entries(files)) {
    const old = [...paths.keys()].filter((one) => one === path || one.startsWith(`${path}/`))
    if (content === null && old.length === 0) throw new Error(`There is no ${path} to take away.`)
    for (const one of old) paths.delete(one)
    for (let way = dirname(path); way !== '.'; way = dirname(way))
      if (paths.has(way)) throw new Error(`${way} is no folder for ${path}.`)
    if (content !== null) paths.set(path, nodeOf(content))
  }
  return paths
}

function nodeOf(content: string | Buffer | Link): Node {
  if (typeof content === 'object' && 'link' in content) return content
  return { file: Buffer.from(content) }
}
