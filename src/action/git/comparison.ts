import { readlink } from 'node:fs/promises'
import { join, posix, relative, sep } from 'node:path'
import { UsageError } from '../../checking/usage-error.ts'
import { isInside } from '../../files/folders.ts'
import type { Git } from './git.ts'
import { isSameAt, Tree } from './tree.ts'

// As many as Linux follows (path_resolution(7)).
const MOST_LINKS = 40
// Of a name that is no UTF-8 only part can be told.
const UNKNOWN = '\ufffd'

/** What is checked out compared with a base commit. Paths are from the top of the repository, with /. */
export class Comparison {
  readonly git: Git
  readonly base: Tree
  readonly head: Tree
  readonly #dirty: ReadonlySet<string>
  readonly #submodules = new Map<string, Promise<Comparison | null>>()

  private constructor(git: Git, base: Tree, head: Tree, dirty: ReadonlySet<string>) {
    this.git = git
    this.base = base
    this.head = head
    this.#dirty = dirty
  }

  /** @param head of the commit that is checked out @throws UsageError when git can't tell */
  static async of(git: Git, base: Tree, head: Tree): Promise<Comparison> {
    const options = ['--name-only', '--no-renames', '--no-ext-diff', '--ignore-submodules=dirty', '-z']
    const dirty = await git.read(
      'tell whether the checkout is as it was committed',
      ...['diff', ...options, head.commit, '--'],
    )
    return new Comparison(git, base, head, new Set([...namesIn(dirty), ...(await unwatched(git))]))
  }

  /**
   * Whether a file is provably as it was in the base commit: tracked, and the same there in content, in every link and
   * submodule on its way, and in the attributes that say how it is checked out. Whatever can't be proved is not the same.
   * @param path absolute
   */
  async isSame(path: string): Promise<boolean> {
    if (!isInside(path, this.git.folder)) return false
    return this.#isSame(relative(this.git.folder, path).split(sep).join('/'))
  }

  async #isSame(path: string): Promise<boolean> {
    let names = path.split('/')
    let links = 0
    for (let at = 0; at < names.length; at++) {
      const way = names.slice(0, at + 1).join('/')
      if (way.includes(UNKNOWN)) return false
      const entry = this.head.entries.get(way)
      const rest = names.slice(at + 1)
      if (entry === undefined) return false
      // A folder is what is in it.
      if (entry.kind === 'folder') continue
      if (!isSameAt(way, this.base, this.head) || this.#dirty.has(way)) return false
      if (entry.kind === 'file') return rest.length === 0 && this.#hasSameAttributes(names.slice(0, at))
      if (entry.kind === 'submodule') {
        const inside = await this.#submodule(way, entry.oid)
        return rest.length > 0 && inside !== null && inside.#isSame(rest.join('/'))
      }
      const target = await readlink(join(this.git.folder, way)).catch(() => null)
      if (target === null || !isPlain(target) || ++links > MOST_LINKS) return false
      names = posix.join(posix.dirname(way), target, ...rest).split('/')
      if (names[0] === '..') return false
      at = -1
    }
    return false
  }

  /** The attributes say which filters a file goes through on its way out of the repository (gitattributes(5)). */
  #hasSameAttributes(folders: readonly string[]): boolean {
    return ['', ...folders].every((_, depth) =>
      isSameAt([...folders.slice(0, depth), '.gitattributes'].join('/'), this.base, this.head),
    )
  }

  /** A submodule as its commit has it; null when it is not checked out, or git can't tell. */
  #submodule(path: string, commit: string): Promise<Comparison | null> {
    const known = this.#submodules.get(path)
    if (known) return known
    const opened = openSubmodule(this.git.in(join(this.git.folder, path)), commit)
    this.#submodules.set(path, opened)
    return opened
  }
}

function namesIn(listed: Buffer): string[] {
  return listed.toString('utf8').split('\0')
}

/** Files whose changes git was told not to look for (git-ls-files, option -v: in small letters, or S). */
async function unwatched(git: Git): Promise<string[]> {
  const listed = await git.read('tell which files it looks at', 'ls-files', '-v', '-z')
  return namesIn(listed).flatMap((line) => (/^[a-zS] /.test(line) ? line.slice(2) : []))
}

/** Whether what a link says can be followed by its names alone: up first, then down. A name before ".." may be a link. */
function isPlain(target: string): boolean {
  const names = target.split('/').filter((name) => name !== '.')
  const down = names.findIndex((name) => name !== '..')
  return !posix.isAbsolute(target) && down >= 0 && !names.slice(down).includes('..')
}

async function openSubmodule(git: Git, commit: string): Promise<Comparison | null> {
  const found = await git.checkedOut()
  // In the folder of one that is not checked out, git finds the repository around it.
  if (found?.git.folder !== git.folder) return null
  try {
    const tree = await Tree.of(found.git, commit)
    return await Comparison.of(found.git, tree, tree)
  } catch (error) {
    if (error instanceof UsageError) return null
    throw error
  }
}
