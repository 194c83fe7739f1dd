import { mkdtemp } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { changedFiles } from '../../src/action/changed-files.ts'
import { Git } from '../../src/action/git.ts'
import { Repository } from './runner/repository.ts'

// Git itself is the check from outside: real commits, read back.
test('added, changed, moved, copied and removed files, with any name', async () => {
  const temp = await mkdtemp(join(tmpdir(), 'changed '))
  const base = { 'keep.jpg': 'k', 'change.jpg': 'c', 'move.jpg': 'the same bytes', 'remove.jpg': 'r' }
  const repository = await Repository.create(temp, base)
  const since = await repository.git('rev-parse', 'HEAD')
  await repository.commit({
    'change.jpg': 'C',
    'move.jpg': null,
    'Åsa\n"tab\t.jpg': 'the same bytes',
    'copy.jpg': 'k',
    'remove.jpg': null,
  })
  const git = new Git(repository.folder, process.env, new AbortController().signal)
  const { present, removed } = await changedFiles(git, since)
  expect([...present].sort()).toEqual(['change.jpg', 'copy.jpg', 'Åsa\n"tab\t.jpg'].sort())
  expect([...removed].sort()).toEqual(['move.jpg', 'remove.jpg'])
})

test('a commit that is not there is told', async () => {
  const repository = await Repository.create(await mkdtemp(join(tmpdir(), 'changed ')), { a: 'a' })
  const git = new Git(repository.folder, process.env, new AbortController().signal)
  await expect(changedFiles(git, 'f'.repeat(40))).rejects.toThrow('Set fetch-depth: 0')
})
