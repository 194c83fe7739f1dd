import { chmod, mkdir, mkdtemp, readFile, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { nodeOf } from '../outside/node-builds.ts'
import { picture, SPEC } from './runner/deliveries.ts'
import { git } from './runner/git.ts'
import { Repository } from './runner/repository.ts'

let work: string
let bin: string

beforeAll(async () => {
  const temp = await mkdtemp(join(tmpdir(), 'hook '))
  bin = join(temp, 'bin')
  await mkdir(bin)
  const node = join(await nodeOf(24), 'node')
  const script = `NODE_COMPILE_CACHE="${join(temp, 'compiled')}" exec "${node}" "${resolve('src/cli.ts')}" "$@"`
  await writeFile(join(bin, 'portrait-gate'), `#!/bin/sh\n${script}\n`)
  await chmod(join(bin, 'portrait-gate'), 0o755)
  const spec = SPEC.replace(/^(?:roster|waivers):.*\n/gm, '')
  const faulty = await picture(60, 75)
  const files = { 'brand.yaml': spec, 'portraits/Farouk-Layla.jpg': faulty }
  work = (await Repository.create(temp, files)).folder
  // The hook is the one that the page shows.
  const [, hook = ''] = /```sh\n(.*?)```/s.exec(await readFile('docs/pre-commit.md', 'utf8')) ?? []
  expect(hook).toMatch(/^#!\/bin\/sh\n/)
  const hooks = join(work, '.git', 'hooks')
  await mkdir(hooks)
  await writeFile(join(hooks, 'pre-commit'), hook, { mode: 0o755 })
})

async function commit(name: string, content: Buffer): Promise<string> {
  await writeFile(join(work, name), content)
  await git(work, 'add', '-A')
  const path = process.env.PATH
  process.env.PATH = `${bin}:${path}`
  try {
    return await git(work, 'commit', '-q', '-m', 'A portrait')
  } finally {
    process.env.PATH = path
  }
}

test('a faulty portrait stops the commit, and says why', async () => {
  const refused = commit('portraits/Grieve-Morag.jpg', await picture(60, 75))
  await expect(refused).rejects.toMatchObject({ stderr: expect.stringContaining('pixel-size') })
})

test('once fixed it is committed, whatever problems it had before', async () => {
  await commit('portraits/Grieve-Morag.jpg', await picture())
  expect(await git(work, 'log', '-1', '--name-only', '--format=')).toBe('portraits/Grieve-Morag.jpg')
})

test('a commit without portraits is let through', async () => {
  await commit('README.md', Buffer.from('Portraits\n'))
  expect(await git(work, 'status', '--porcelain')).toBe('')
})
