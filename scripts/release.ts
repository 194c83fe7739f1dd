import { execFile } from 'node:child_process'
import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { promisify } from 'node:util'
import { releaseContents } from './package/release.ts'
import { writeInto } from './package/write.ts'

/**
 * Makes a commit that holds the packed form of HEAD and nothing else, with HEAD as its parent, and prints it. No branch moves. From the same
 * commit the same tree comes on every machine, so that anyone can check a release. Run in the repository's root when it is built.
 */

const { version } = JSON.parse(await readFile('package.json', 'utf8'))
const temp = await mkdtemp(join(tmpdir(), 'release-'))
const run = promisify(execFile)
const git = async (...args: readonly string[]): Promise<string> => {
  const env = { ...process.env, GIT_INDEX_FILE: join(temp, 'index') }
  return (await run('git', args, { env, maxBuffer: 2 ** 24 })).stdout.trim()
}

try {
  const changed = (await run('git', ['status', '--porcelain'])).stdout
  if (changed !== '')
    throw new Error(`A release is made of what is committed; these files differ:\n${changed}`)
  const folder = join(temp, 'release')
  await writeInto(folder, await releaseContents('dist/src'))
  await git('--work-tree', folder, 'add', '--all', '--force', '.')
  const tree = await git('write-tree')
  const commit = await git('commit-tree', tree, '-p', 'HEAD', '-m', `Release ${version}`)
  process.stdout.write(`Release ${version} is commit ${commit}. To publish it:\n`)
  process.stdout.write(`git tag v${version} ${commit} && git push origin v${version}\n`)
} finally {
  await rm(temp, { recursive: true })
}
