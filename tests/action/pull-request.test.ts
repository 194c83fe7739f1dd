import { symlink } from 'node:fs/promises'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { LOOSE_SPEC, picture, SPEC, smallDelivery } from './runner/deliveries.ts'
import { git } from './runner/git.ts'
import { judged } from './runner/in-process.ts'
import { type Files, Repository } from './runner/repository.ts'
import type { Ran } from './runner/run-action.ts'
import { onPullRequest as onRequest, ownFolder, type Setting } from './runner/scene.ts'

let delivery: Files
beforeAll(async () => {
  delivery = await smallDelivery()
})

/** On the small delivery unless another base is given. */
function onPullRequest(
  change: Files,
  { base = delivery, ...setting }: Setting & { base?: Files } = {},
): Promise<Ran> {
  return onRequest(base, change, setting)
}

function told(ran: Ran, name: string) {
  return ran.commands.filter((command) => command.name === name)
}

describe('a pull request', () => {
  test('that is faulty fails, and the fault is annotated at its file with what was measured, asked and the fix', async () => {
    const ran = await onPullRequest({ 'portraits/Grieve-Morag.jpg': await picture(60, 75) })
    expect(ran).toMatchObject({ ok: false, outputs: { verdict: 'fail', checked: '4', failed: '1' } })
    expect(ran.commands).toHaveLength(1)
    expect(ran.commands[0]).toMatchObject({
      name: 'error',
      properties: { file: 'portraits/Grieve-Morag.jpg', title: 'Fails: pixel-size' },
      data: expect.stringMatching(/is 60 x 75 px; the spec asks for a width of 80 px .*Export again/),
    })
    expect(ran.summary).toContain('### Need work')
  })

  test('that has ten faults gets nine annotations and the number of the others', async () => {
    const names = Array.from({ length: 11 }, (_, i) => `portraits/Nobody-N${i}.jpg`)
    const small = await picture(60, 75)
    const ran = await onPullRequest(Object.fromEntries(names.map((name) => [name, small])))
    expect(told(ran, 'error')).toHaveLength(9)
    expect(told(ran, 'notice')).toHaveLength(1)
    expect(told(ran, 'notice')[0]?.data).toMatch(/^\d+ more files in the summary\.$/)
  })

  test('whose spec is broken: the line and the column are annotated', async () => {
    const inputs = { 'spec-from-base': 'false' }
    const ran = await onPullRequest({ 'brand.yaml': `${SPEC}headrom: { min: 6 }\n` }, { inputs })
    expect(ran).toMatchObject({ ok: false, outputs: { verdict: 'error', checked: '0', 'report-json': '' } })
    expect(ran.commands[0]).toMatchObject({
      name: 'error',
      properties: { file: 'brand.yaml', line: '9', col: '1' },
      data: expect.stringContaining('headroom'),
    })
    expect(ran.summary).toContain('Nothing was judged.')
  })
})

test('of a public repository warns that reports show faces', async () => {
  const small = { 'portraits/Grieve-Morag.jpg': await picture(60, 75) }
  for (const isPrivate of [true, false]) {
    const { repository, sha, event } = await Repository.withRequest(await ownFolder(), delivery, small)
    const [workspace, temp] = [await ownFolder(), await ownFolder()]
    await repository.checkout(workspace, sha, '2')
    const payload = { ...event, repository: { private: isPrivate } }
    const job = { workspace, temp, eventName: 'pull_request', event: payload, sha }
    const ran = await judged({ paths: 'portraits' }, job)
    expect(told(ran, 'warning').map(({ properties }) => properties.title)).toEqual(
      isPrivate ? [] : ['Public repository'],
    )
    expect(ran.summary.includes('shows the faces to everyone')).toBe(!isPrivate)
  }
})

describe('a pull request that loosens its own gate', () => {
  const loosened = async (): Promise<Files> => ({
    'brand.yaml': LOOSE_SPEC.replace('height: 100', 'height: 75'),
    'portraits/Grieve-Morag.jpg': await picture(60, 75),
  })

  test('by its spec is judged by the spec of its base, and the summary says so', async () => {
    const ran = await onPullRequest(await loosened())
    expect(ran).toMatchObject({ ok: false, outputs: { verdict: 'fail', failed: '1' } })
    expect(ran.summary).toMatch(/The change touches brand\.yaml\. It was judged by the version of the base/)
  })

  test('by a waiver is judged by the waivers of its base', async () => {
    const waivers =
      '- rule: pixel-size\n  file: Grieve-Morag.jpg\n  reason: none\n  approved-by: the author\n  until: 2999-01-01\n'
    const small = await picture(60, 75)
    const change = { 'waivers.yaml': waivers, 'portraits/Grieve-Morag.jpg': small }
    expect(await onPullRequest(change)).toMatchObject({ ok: false, outputs: { failed: '1' } })
    const inputs = { 'spec-from-base': 'false' }
    expect(await onPullRequest(change, { inputs })).toMatchObject({ ok: true, outputs: { failed: '0' } })
  })

  test('by a merge commit of its own is judged by the base that the event tells', async () => {
    const repository = await Repository.create(await ownFolder(), delivery)
    const base = await repository.git('rev-parse', 'HEAD')
    // The author's commit has a first parent with a spec as loose as its own.
    await repository.git('checkout', '-q', '-b', 'loose')
    await repository.commit(await loosened())
    await repository.git('checkout', '-q', '-b', 'side', base)
    await repository.commit({})
    await repository.git('checkout', '-q', 'loose')
    await repository.git('merge', '-q', '--no-ff', '-m', 'Mine', 'side')
    const head = await repository.git('rev-parse', 'HEAD')
    const workspace = await ownFolder()
    await repository.checkout(workspace, head, '0')
    const event = { pull_request: { base: { sha: base } } }
    const job = { workspace, temp: await ownFolder(), eventName: 'pull_request', event, sha: base }
    const ran = await judged({ paths: 'portraits' }, job)
    expect(ran).toMatchObject({ ok: false, outputs: { verdict: 'fail', failed: '1' } })
  })
})

describe('only-changed', () => {
  const inputs = { 'only-changed': 'true' }
  const bad = async () => ({ ...delivery, 'portraits/Farouk-Layla.jpg': await picture(60, 75) })

  test('judges what changed and leaves what was wrong before', async () => {
    const change = { 'portraits/Grieve-Morag.jpg': await picture(80, 100, 90) }
    const ran = await onPullRequest(change, { inputs, base: await bad() })
    expect(ran).toMatchObject({ ok: true, outputs: { verdict: 'pass', checked: '1' } })
    expect(ran.summary).toContain('Judged one by one: 1 portrait that changed.')
  })

  test('sees a renamed file under its new name, and the whole delivery', async () => {
    const change = {
      'portraits/Grieve-Morag.jpg': null,
      'portraits/Greave-Morag.jpg': delivery['portraits/Grieve-Morag.jpg'] ?? '',
    }
    const ran = await onPullRequest(change, { inputs })
    expect(ran).toMatchObject({ ok: false, outputs: { verdict: 'fail', checked: '1' } })
    expect(ran.summary).toMatch(/roster/)
  })

  test('a removed portrait is missed by the roster', async () => {
    const ran = await onPullRequest({ 'portraits/Grieve-Morag.jpg': null }, { inputs })
    expect(ran).toMatchObject({ ok: false, outputs: { verdict: 'fail', checked: '0' } })
    // The last of four rows below the header.
    expect(told(ran, 'error')[0]).toMatchObject({
      properties: { file: 'staff.csv', line: '5' },
      data: expect.stringContaining('Grieve'),
    })
    const roster = `family,given\nNew,Person\n${String(delivery['staff.csv']).split('\n').slice(1).join('\n')}`
    const moved = await onPullRequest({ 'portraits/Grieve-Morag.jpg': null, 'staff.csv': roster }, { inputs })
    // The roster in force is that of the base, whose lines are not those that are shown.
    expect(told(moved, 'error')[0]?.properties).not.toHaveProperty('line')
  })

  test('a changed spec means all', async () => {
    const ran = await onPullRequest({ 'brand.yaml': `${SPEC}# more\n` }, { inputs, base: await bad() })
    expect(ran).toMatchObject({ ok: false, outputs: { checked: '4', failed: '1' } })
  })

  test('nothing to judge is said and is no pass', async () => {
    const ran = await onPullRequest({ 'README.md': 'Portraits\n' }, { inputs })
    expect(ran).toMatchObject({ ok: true, outputs: { verdict: 'skip', checked: '0' } })
    expect(ran.summary).toContain('No portrait changed; nothing was judged.')
  })

  test('a checkout with too little history says which depth to set', async () => {
    const change = { 'portraits/Grieve-Morag.jpg': await picture(80, 100, 90) }
    const ran = await onPullRequest(change, { inputs, depth: '1' })
    expect(ran).toMatchObject({ ok: false, outputs: { verdict: 'error' } })
    expect(told(ran, 'error')[0]?.data).toContain('Set fetch-depth: 2 in the checkout step.')
  })
})

describe('a checkout without the pictures', () => {
  test('Git LFS pointers fail with what to set', async () => {
    // The pointer format of Git LFS, docs/spec.md, version 1.
    const pointer = `version https://git-lfs.github.com/spec/v1\noid sha256:${'0'.repeat(64)}\nsize 123456\n`
    const ran = await onPullRequest({ 'portraits/Grieve-Morag.jpg': pointer })
    expect(ran).toMatchObject({ ok: false, outputs: { verdict: 'fail', failed: '1' } })
    expect(told(ran, 'error')[0]?.data).toContain('set lfs: true in the checkout step')
  })

  test('a sparse one is refused', async () => {
    const prepare = async (workspace: string) => {
      await git(workspace, 'sparse-checkout', 'set', '--no-cone', '/*', '!/portraits/Farouk-Layla.jpg')
    }
    const ran = await onPullRequest({}, { prepare })
    expect(ran).toMatchObject({ ok: false, outputs: { verdict: 'error' } })
    expect(told(ran, 'error')[0]?.data).toMatch(/leaves out portraits.*Farouk-Layla/)
  })

  test('one whose delivery is a link that leads out is refused', async () => {
    const repository = await Repository.create(await ownFolder(), delivery)
    const workspace = await ownFolder()
    await repository.checkout(workspace, await repository.git('rev-parse', 'HEAD'), '0')
    await git(workspace, 'rm', '-q', '-r', 'portraits')
    await symlink(await ownFolder(), join(workspace, 'portraits'))
    const sha = await git(workspace, 'rev-parse', 'HEAD')
    const job = { workspace, temp: await ownFolder(), eventName: 'push', event: {}, sha }
    const ran = await judged({ paths: 'portraits' }, job)
    expect(told(ran, 'error')[0]?.data).toContain('portraits leads out of the workspace')
  })
})
