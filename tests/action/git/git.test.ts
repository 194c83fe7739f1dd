import { mkdir, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { Git } from '../../../src/action/git/git.ts'
import { Repository } from '../runner/repository.ts'
import { ownFolder } from '../runner/scene.ts'

const signal = new AbortController().signal

test('a folder that looks like a bare repository is none', async () => {
  const folder = await ownFolder()
  for (const name of ['objects', 'refs']) await mkdir(join(folder, name))
  await writeFile(join(folder, 'HEAD'), 'ref: refs/heads/main\n')
  // git-config(1), safe.bareRepository.
  expect(await new Git(folder, process.env, signal).ask('rev-parse', '--git-dir')).toMatchObject({
    ok: false,
  })
})

test('a repository is asked through its own folder, wherever variables point', async () => {
  const { folder } = await Repository.create(await ownFolder(), { a: '1' })
  const env = { ...process.env, GIT_DIR: '/nowhere', GIT_OBJECT_DIRECTORY: '/nowhere' }
  const git = new Git(folder, env, signal)
  const found = await git.checkedOut()
  expect(found?.git.folder).toBe(folder)
  expect(found?.commit).toMatch(/^[0-9a-f]{40}$/)
})

test('what git can not answer is an error with what to set, never an empty answer', async () => {
  const { folder } = await Repository.create(await ownFolder(), { a: '1' })
  const git = new Git(folder, process.env, signal)
  await expect(git.read('list it', 'ls-tree', 'f'.repeat(40))).rejects.toThrow(
    "Git can't list it. Set fetch-depth: 0 and no filter in the checkout step",
  )
})

test('a stop is its reason', async () => {
  const stop = new AbortController()
  const { folder } = await Repository.create(await ownFolder(), { a: '1' })
  stop.abort(new Error('enough'))
  await expect(new Git(folder, process.env, stop.signal).ask('status')).rejects.toThrow('enough')
})
