import { mkdtemp, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { findBase } from '../../src/action/base-commit.ts'
import { Git } from '../../src/action/git.ts'
import { Repository } from './runner/repository.ts'

let repository: Repository
let first: string
let second: string

beforeAll(async () => {
  repository = await Repository.create(await mkdtemp(join(tmpdir(), 'base ')), { a: '1' })
  first = await repository.git('rev-parse', 'HEAD')
  second = await repository.commit({ a: '2' })
})

async function baseOf(eventName: string, event: object | string, depth = '0') {
  const folder = await mkdtemp(join(tmpdir(), 'base '))
  await repository.checkout(join(folder, 'work'), second, depth)
  const eventPath = join(folder, 'event.json')
  await writeFile(eventPath, typeof event === 'string' ? event : JSON.stringify(event))
  const git = new Git(join(folder, 'work'), process.env, new AbortController().signal)
  const files = { outputFile: null, summaryFile: null }
  return findBase(git, { workspace: git.folder, temp: folder, eventName, eventPath, sha: second, ...files })
}

test('a merge queue and a push name the commit before', async () => {
  const base = { commit: first, since: first }
  expect(await baseOf('merge_group', { merge_group: { base_sha: first } })).toEqual(base)
  expect(await baseOf('push', { before: first })).toEqual(base)
})

test.each([
  ['push', { before: '0'.repeat(40) }, 'nothing was there before this push'],
  ['push', { before: 'f'.repeat(40) }, 'the commit before this push is gone'],
  ['push', {}, 'nothing was there before this push'],
  ['schedule', {}, 'the event schedule has no base'],
])('%s %j: %s', async (name, event, none) => {
  expect(await baseOf(name, event)).toEqual({ none })
})

test.each([
  ['no JSON', '{'],
  ['no commit', { pull_request: { base: { sha: '--output=/etc/passwd' } } }],
  ['nothing', {}],
])('an event with %s can not be trusted', async (_, event) => {
  await expect(baseOf('pull_request', event)).rejects.toThrow('The event does not tell the base commit')
})

test('an event with the rights of the repository is refused', async () => {
  await expect(baseOf('pull_request_target', {})).rejects.toThrow('run it on pull_request.')
})

test('too little history names the depth', async () => {
  const pull = { pull_request: { base: { sha: first } } }
  await expect(baseOf('pull_request', pull, '1')).rejects.toThrow('Set fetch-depth: 0')
  await expect(baseOf('push', { before: first }, '1')).rejects.toThrow('Set fetch-depth: 0')
})

test('a branch that the base has moved on from is compared with where it left', async () => {
  await repository.git('checkout', '-q', '-b', 'moved', first)
  const moved = await repository.commit({ b: '1' })
  await repository.git('checkout', '-q', 'main')
  const work = await mkdtemp(join(tmpdir(), 'base '))
  await repository.checkout(work, second, '0')
  const git = new Git(work, process.env, new AbortController().signal)
  await git.ask('fetch', '-q', repository.folder, moved)
  const eventPath = join(work, '..', `${moved}.json`)
  await writeFile(eventPath, JSON.stringify({ pull_request: { base: { sha: moved } } }))
  const runner = { workspace: work, temp: work, eventName: 'pull_request', eventPath, sha: null }
  const base = await findBase(git, { ...runner, outputFile: null, summaryFile: null })
  expect(base).toEqual({ commit: moved, since: first })
})
