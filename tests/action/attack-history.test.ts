import { execFileSync } from 'node:child_process'
import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { findBase } from '../../src/action/git/base-commit.ts'
import { readCheckout } from '../../src/action/git/checkout.ts'
import { LOOSE_SPEC, picture, smallDelivery } from './runner/deliveries.ts'
import { git } from './runner/git.ts'
import { judged } from './runner/in-process.ts'
import { Repository } from './runner/repository.ts'
import { ONLY_CHANGED, ownFolder } from './runner/scene.ts'

const GRIEVE = 'portraits/Grieve-Morag.jpg'

describe('a base whose history meets that of the change in more than one commit, or out of sight', () => {
  /** A commit that does nothing, dated later than all others. */
  const later = (folder: string) => {
    const date = '2026-06-01T00:00:00Z'
    const who = {
      GIT_AUTHOR_NAME: 'x',
      GIT_AUTHOR_EMAIL: 'x',
      GIT_COMMITTER_NAME: 'x',
      GIT_COMMITTER_EMAIL: 'x',
    }
    const env = { ...process.env, ...who, GIT_COMMITTER_DATE: date }
    execFileSync('git', ['-C', folder, 'commit', '-q', '--allow-empty', '-m', 'x'], { env })
  }

  test('merged crosswise: a bad portrait that the base has replaced comes back', async () => {
    const [delivery, bad] = [await smallDelivery(), await picture(60, 75)]
    const repository = await Repository.create(await ownFolder(), { ...delivery, [GRIEVE]: bad })
    await repository.git('checkout', '-q', '-b', 'change')
    later(repository.folder)
    const first = await repository.git('rev-parse', 'HEAD')
    await repository.git('checkout', '-q', 'main')
    await repository.commit({ [GRIEVE]: delivery[GRIEVE] ?? null })
    await repository.git('checkout', '-q', 'change')
    await repository.git('merge', '-q', '-s', 'ours', '-m', 'x', 'main')
    const sha = await repository.git('rev-parse', 'HEAD')
    await repository.git('checkout', '-q', 'main')
    await repository.git('merge', '-q', '-m', 'x', first)
    const base = await repository.git('rev-parse', 'HEAD')
    // Git's own choice among the two is the commit that has the bad one.
    expect(await repository.git('merge-base', base, sha)).toBe(first)
    const [workspace, temp] = [await ownFolder(), await ownFolder()]
    await repository.git('checkout', '-q', '-b', 'both')
    await repository.git('merge', '-q', '-m', 'x', sha)
    await repository.checkout(workspace, 'both', '0')
    await repository.git('checkout', '-q', 'main')
    await git(workspace, 'checkout', '-q', '--detach', sha)
    const event = { pull_request: { base: { sha: base } } }
    const job = { workspace, temp, eventName: 'pull_request', event, sha: 'f'.repeat(40) }
    const ran = await judged({ paths: 'portraits', ...ONLY_CHANGED }, job)
    expect(ran).toMatchObject({ exit: 1, outputs: { checked: '1', failed: '1' } })
    // What merging would bring: git's own answer.
    const merged = await repository.git('rev-parse', `both:${GRIEVE}`, `${sha}:${GRIEVE}`)
    expect(new Set(merged.split('\n')).size).toBe(1)
  })

  test("a merge of the author's own is none of the server's, where the run starts on it", async () => {
    const [delivery, bad] = [await smallDelivery(), await picture(60, 75)]
    const repository = await Repository.create(await ownFolder(), delivery)
    const base = await repository.git('rev-parse', 'main')
    await repository.git('checkout', '-q', '-b', 'change')
    await repository.commit({ 'brand.yaml': LOOSE_SPEC.replace('height: 100', 'height: 75'), [GRIEVE]: bad })
    await repository.commit({ 'brand.yaml': LOOSE_SPEC.replace('height: 100', 'height: 75'), 'x.md': 'x' })
    await repository.git('checkout', '-q', '-b', 'side', 'main')
    await repository.commit({ 'y.md': 'y' })
    await repository.git('checkout', '-q', 'change')
    await repository.git('merge', '-q', '--no-ff', '-m', 'x', 'side')
    const sha = await repository.git('rev-parse', 'HEAD')
    const [workspace, temp] = [await ownFolder(), await ownFolder()]
    await repository.checkout(workspace, 'change', '0')
    for (const head of [{ sha }, null]) {
      const event = { pull_request: { base: { sha: base }, head } }
      const job = { workspace, temp, eventName: 'pull_request', event, sha }
      const ran = await judged({ paths: 'portraits', ...ONLY_CHANGED }, job)
      expect(ran).toMatchObject({ exit: 1, outputs: { failed: '1' } })
    }
  })

  test('a history that ends early hides where it meets: more is asked for', async () => {
    const repository = await Repository.create(await ownFolder(), { a: 'old' })
    const old = await repository.git('rev-parse', 'HEAD')
    const met = await repository.commit({ a: 'new' })
    const base = await repository.commit({})
    await repository.git('checkout', '-q', '-b', 'long', met)
    await repository.commit({ c: 'x' })
    await repository.commit({})
    await repository.git('checkout', '-q', '-b', 'change', old)
    await repository.commit({ b: 'x' })
    await repository.git('merge', '-q', '-s', 'ours', '-m', 'x', 'long')
    const sha = await repository.git('rev-parse', 'HEAD')
    const [workspace, temp] = [await ownFolder(), await ownFolder()]
    await repository.checkout(workspace, base, '3')
    await git(workspace, 'fetch', '-q', '--depth=3', 'origin', sha)
    await git(workspace, 'checkout', '-q', '--detach', sha)
    expect(await git(workspace, 'merge-base', base, 'HEAD')).toBe(old)
    const event = { pull_request: { base: { sha: base } } }
    const eventPath = join(temp, 'event.json')
    await writeFile(eventPath, JSON.stringify(event))
    const none = { run: null, outputFile: null, summaryFile: null }
    const runner = { workspace, temp, eventName: 'pull_request', eventPath, sha: null, ...none }
    const checkout = await readCheckout(workspace, process.env, new AbortController().signal)
    await expect(findBase(checkout, runner)).rejects.toThrow(/too little history.*fetch-depth: 0/)
    checkout?.git.close()
  })
})
