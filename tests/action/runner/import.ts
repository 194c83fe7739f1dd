import { spawn } from 'node:child_process'
import { text } from 'node:stream/consumers'
import { environment } from './git.ts'

/** What a commit has at a path: a file, a link by what it says, or a submodule by its commit. */
export type Node = { readonly file: Buffer } | { readonly link: string } | { readonly submodule: string }
export type Paths = ReadonlyMap<string, Node>

/** A commit to write: all of its paths, and its parents by their marks (the first commit has mark 1). */
export interface Commit {
  readonly paths: Paths
  readonly parents: readonly number[]
}

const WHO = 'Test <test@example.invalid> 1767225600 +0000'

/**
 * Writes commits into an empty repository, in one go (git-fast-import); the last becomes `main`.
 * @returns their hashes
 */
export async function importCommits(folder: string, commits: readonly Commit[]): Promise<string[]> {
  const parts: (string | Buffer)[] = []
  for (const [index, { paths, parents }] of commits.entries()) {
    parts.push(`commit refs/heads/main\nmark :${index + 1}\nauthor ${WHO}\ncommitter ${WHO}\ndata 1\nx\n`)
    const [first, ...others] = parents
    if (first !== undefined) parts.push(`from :${first}\n`)
    for (const other of others) parts.push(`merge :${other}\n`)
    parts.push('deleteall\n')
    for (const [path, node] of paths) parts.push(...lines(path, node))
    parts.push(`\nget-mark :${index + 1}\n`)
  }
  const child = spawn('git', ['-C', folder, 'fast-import', '--quiet', '--force'], {
    stdio: ['pipe', 'pipe', 'inherit'],
    env: environment(),
  })
  const ended = new Promise((resolve) => child.on('close', resolve))
  child.stdin.end(Buffer.concat(parts.map((part) => (typeof part === 'string' ? Buffer.from(part) : part))))
  const hashes = await text(child.stdout)
  const code = await ended
  if (code !== 0) throw new Error(`git fast-import ended with ${code}.`)
  return hashes.trim().split('\n')
}

function lines(path: string, node: Node): (string | Buffer)[] {
  const quoted = `"${path.replace(/["\\]/g, '\\$&').replaceAll('\n', '\\n')}"`
  if ('submodule' in node) return [`M 160000 ${node.submodule} ${quoted}\n`]
  const [mode, data] = 'file' in node ? ['100644', node.file] : ['120000', Buffer.from(node.link)]
  return [`M ${mode} inline ${quoted}\ndata ${data.length}\n`, data, '\n']
}
