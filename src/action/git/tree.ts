import { UsageError } from '../../checking/usage-error.ts'
import { cannot, type Git } from './git.ts'

/** What a commit has at a path (git-ls-tree): a file, a link, a folder, or a submodule's commit, by its content. */
export interface Entry {
  readonly kind: 'file' | 'link' | 'folder' | 'submodule'
  readonly mode: string
  /** Hash of the content, hex. */
  readonly oid: string
}

const KINDS: Readonly<Record<string, Entry['kind']>> = {
  '100': 'file',
  '120': 'link',
  '040': 'folder',
  '160': 'submodule',
}
const LINE = /^(\d{6}) \w+ ([0-9a-f]+)\t(.+)$/s

/** All that a commit has, folders too; paths from the top, with /. */
export class Tree {
  readonly commit: string
  readonly entries: ReadonlyMap<string, Entry>
  readonly #git: Git

  private constructor(git: Git, commit: string, entries: ReadonlyMap<string, Entry>) {
    this.#git = git
    this.commit = commit
    this.entries = entries
  }

  /** @throws UsageError when git can't list the commit to its end */
  static async of(git: Git, commit: string): Promise<Tree> {
    const question = `list the files of commit ${commit.slice(0, 12)}`
    const listed = await git.read(question, 'ls-tree', '-r', '-t', '-z', '--full-tree', commit)
    const entries = new Map<string, Entry>()
    for (const line of listed.toString('utf8').split('\0')) {
      if (line === '') continue
      const [, mode = '', oid = '', path = ''] = LINE.exec(line) ?? []
      const kind = KINDS[mode.slice(0, 3)]
      if (kind === undefined) throw new UsageError(`Git can't ${question}: it has an entry of mode ${mode}.`)
      entries.set(path, { kind, mode, oid })
    }
    return new Tree(git, commit, entries)
  }

  /**
   * A file's content; null when the commit provably has nothing there.
   * @throws UsageError when git lacks the content, or something other than a file is at the path or on its way: a link
   *   or a submodule leads to what the commit alone does not tell
   */
  async content(path: string): Promise<Buffer | null> {
    const entry = this.#fileAt(path)
    if (entry === null) return null
    const content = await this.#git.object(entry.oid)
    if (content === null) throw cannot(`read ${path} of commit ${this.commit.slice(0, 12)}`)
    return content
  }

  /** Writes a file's content into a new file; false when git lacks it. */
  async save({ oid }: Entry, target: string): Promise<boolean> {
    return this.#git.save(oid, target)
  }

  #fileAt(path: string): Entry | null {
    const names = path.split('/')
    for (const index of names.keys()) {
      const way = names.slice(0, index + 1).join('/')
      const entry = this.entries.get(way)
      if (entry === undefined) return null
      const isLast = index === names.length - 1
      if (entry.kind === (isLast ? 'file' : 'folder')) {
        if (isLast) return entry
        continue
      }
      throw new UsageError(
        `${path} can't be taken from commit ${this.commit.slice(0, 12)}: there, ${way} is a ${entry.kind}. Name the file itself, in this repository.`,
      )
    }
    return null
  }
}

/** Whether two trees have the same at a path: nothing, or the same content in the same way. */
export function isSameAt(path: string, { entries: one }: Tree, { entries: other }: Tree): boolean {
  const [a, b] = [one.get(path), other.get(path)]
  return a?.mode === b?.mode && a?.oid === b?.oid
}
