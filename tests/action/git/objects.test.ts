import { execFileSync } from 'node:child_process'
import { randomBytes } from 'node:crypto'
import { afterEach, expect, test } from 'vitest'
import { Git } from '../../../src/action/git/git.ts'
import { Repository } from '../runner/repository.ts'
import { ownFolder } from '../runner/scene.ts'

const opened: Git[] = []
afterEach(() => {
  for (const git of opened.splice(0)) git.close()
})

function opens(folder: string, signal = new AbortController().signal): Git {
  const git = new Git(folder, process.env, signal)
  opened.push(git)
  return git
}

// What git itself tells of each, one by one.
const alone = (folder: string, hash: string) =>
  execFileSync('git', ['-C', folder, 'cat-file', 'blob', hash], { maxBuffer: 2 ** 28 })

test('whatever is in them and however large they are, the answers are those to single questions', async () => {
  const contents = ['', '\n', 'a\nmissing\n', `${'0'.repeat(40)} blob 5\n`, randomBytes(3_000_000)]
  const files = contents.map((content, n) => [`${n}`, content] as const)
  const { folder } = await Repository.create(await ownFolder(), Object.fromEntries(files))
  const listed = execFileSync('git', ['-C', folder, 'rev-parse', ...files.map(([name]) => `HEAD:${name}`)])
  const hashes = listed.toString().trim().split('\n')
  const git = opens(folder)
  const absent = 'f'.repeat(40)
  const answers = await Promise.all([...hashes, absent, ...hashes].map((hash) => git.object(hash)))
  const wanted = hashes.map((hash) => alone(folder, hash))
  expect(answers.map((answer) => answer?.toString('hex') ?? null)).toEqual(
    [...wanted, null, ...wanted].map((content) => content?.toString('hex') ?? null),
  )
})

test('what takes more memory than a spec may is not read, and what is asked next is', async () => {
  const files = { small: 'x', large: Buffer.alloc(64 * 1024 * 1024 + 1) }
  const { folder } = await Repository.create(await ownFolder(), files)
  const git = opens(folder)
  expect(await git.object('HEAD:large')).toBeNull()
  expect(await git.object('HEAD:small')).toEqual(Buffer.from('x'))
})

test('where there is no repository, nothing is there; a stop is its reason', async () => {
  expect(await opens(await ownFolder()).object('HEAD')).toBeNull()
  expect(await opens('/nowhere/at/all').object('HEAD')).toBeNull()
  const stop = new AbortController()
  stop.abort(new Error('enough'))
  await expect(opens(await ownFolder(), stop.signal).object('HEAD')).rejects.toThrow('enough')
})
