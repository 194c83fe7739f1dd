import { mkdtemp, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { findBase, refuseRights } from '../../../src/action/git/base-commit.ts'
import { readCheckout } from '../../../src/action/git/checkout.ts'
import { Git } from '../../../src/action/git/git.ts'
import type { Runner } from '../../../src/action/job/runner.ts'
import { Repository } from '../runner/repository.ts'

let repository: Repository
let first: string
let second: string

beforeAll(async () => {
  repository = await Repository.create(await mkdtemp(join(tmpdir(), 'base ')), { a: '1' })
  first = await repository.git('rev-parse', 'HEAD')
  second = await repository.commit({ a: '2' })
})

const signal = new AbortController().signal

function runnerOf(told: Partial<Runner>): Runner {
  const none = { eventPath: null, sha: null, run: null, outputFile: null, summaryFile: null }
  return { workspace: '', temp: '', eventName: '', ...none, ...told }
}

async function checkoutOf(work: string) {
  const checkout = await readCheckout(work, process.env, signal)
  if (!checkout) throw new Error('Nothing is checked out.')
  return checkout
}

/** @param event as its file has it; null for no file */
async function baseOf(eventName: string, event: object | string | null, { depth = '0', sha = second } = {}) {
  const folder = await mkdtemp(join(tmpdir(), 'base '))
  await repository.checkout(join(folder, 'work'), second, depth)
  const eventPath = event === null ? null : join(folder, 'event.json')
  if (eventPath !== null)
    await writeFile(eventPath, typeof event === 'string' ? event : JSON.stringify(event))
  const checkout = await checkoutOf(join(folder, 'work'))
  return findBase(checkout, runnerOf({ eventName, eventPath, sha })).finally(() => checkout.git.close())
}

test('a merge queue and a push name the commit before', async () => {
  const base = { commit: first, since: first }
  expect(await baseOf('merge_group', { merge_group: { base_sha: first } })).toMatchObject(base)
  expect(await baseOf('push', { before: first })).toMatchObject(base)
})

test.each([
  ['push', { before: '0'.repeat(40) }, 'nothing was there before this push'],
  ['push', { before: 'f'.repeat(40) }, 'the commit before this push is gone'],
  ['workflow_dispatch', {}, 'the event workflow_dispatch has no base'],
  ['schedule', {}, 'the event schedule has no base'],
])('%s %j: %s', async (name, event, none) => {
  expect(await baseOf(name, event)).toEqual({ none })
})

// GitHub Docs, "Events that trigger workflows": what GITHUB_SHA is, and (webhook payloads) what the event holds.
test.each(['pull_request', 'pull_request_review', 'pull_request_review_comment'])(
  '%s has a base',
  async (name) => {
    const base = { commit: first, since: first }
    expect(await baseOf(name, { pull_request: { base: { sha: first } } })).toMatchObject(base)
  },
)

test.each([
  ['pull_request', '{'],
  ['pull_request', null],
  ['pull_request', { pull_request: { base: { sha: '--output=/etc/passwd' } } }],
  ['pull_request', {}],
  ['pull_request_review', {}],
  ['push', {}],
  ['push', '{'],
  ['push', null],
  ['merge_group', {}],
  ['workflow_run', { workflow_run: { head_sha: 'a'.repeat(40) } }],
  ['issue_comment', { issue: { pull_request: {} } }],
  ['something_new', {}],
])('%s with %j: that there is no base is not proved', async (name, event) => {
  await expect(baseOf(name, event)).rejects.toThrow('The event does not name the base commit')
})

test('another commit than that of the event may be a change that nobody has compared', async () => {
  for (const name of ['schedule', 'workflow_dispatch', 'release'])
    await expect(baseOf(name, {}, { sha: first })).rejects.toThrow(/not at the commit of the event/)
  await expect(baseOf('push', { before: '0'.repeat(40) }, { sha: first })).rejects.toThrow(
    /not at the commit/,
  )
})

test('without a repository only an event without a base is told from others', async () => {
  expect(await findBase(null, runnerOf({ eventName: 'schedule', sha: first }))).toEqual({
    none: 'the event schedule has no base',
  })
  await expect(findBase(null, runnerOf({ eventName: 'pull_request' }))).rejects.toThrow(
    'not a git repository',
  )
})

test('an event with the rights of the repository is refused', () => {
  expect(() => refuseRights(runnerOf({ eventName: 'pull_request_target' }))).toThrow(
    'run it on pull_request.',
  )
})

test('too little history names the depth', async () => {
  const pull = { pull_request: { base: { sha: first } } }
  await expect(baseOf('pull_request', pull, { depth: '1' })).rejects.toThrow('Set fetch-depth: 0')
  await expect(baseOf('push', { before: first }, { depth: '1' })).rejects.toThrow('Set fetch-depth: 0')
})

test('a branch that the base has moved on from is compared with where it left', async () => {
  await repository.git('checkout', '-q', '-b', 'moved', first)
  const moved = await repository.commit({ b: '1' })
  await repository.git('checkout', '-q', 'main')
  const work = await mkdtemp(join(tmpdir(), 'base '))
  await repository.checkout(work, second, '0')
  await new Git(work, process.env, signal).ask('fetch', '-q', repository.folder, moved)
  const eventPath = join(work, '..', `${moved}.json`)
  await writeFile(eventPath, JSON.stringify({ pull_request: { base: { sha: moved } } }))
  const checkout = await checkoutOf(work)
  const base = await findBase(checkout, runnerOf({ eventName: 'pull_request', eventPath }))
  checkout.git.close()
  expect(base).toMatchObject({ commit: moved, since: first })
})
