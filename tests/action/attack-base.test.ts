import { rm } from 'node:fs/promises'
import { beforeAll, describe, expect, test } from 'vitest'
import { LOOSE_SPEC, picture, SPEC, smallDelivery } from './runner/deliveries.ts'
import { judged } from './runner/in-process.ts'
import { type Files, Repository } from './runner/repository.ts'
import { onPullRequest, onRequestTo, ownFolder, type Scene, type Setting } from './runner/scene.ts'

let delivery: Files
let bad: Buffer
/** A change that loosens its own gate: its spec asks for what its picture is. */
let loosened: Files
const GRIEVE = 'portraits/Grieve-Morag.jpg'
const ANY_SIZE = LOOSE_SPEC.replace('height: 100', 'height: 75')
beforeAll(async () => {
  delivery = await smallDelivery()
  bad = await picture(60, 75)
  const small = Object.keys(delivery).filter((path) => path.startsWith('portraits/'))
  loosened = { 'brand.yaml': ANY_SIZE, ...Object.fromEntries(small.map((path) => [path, bad])) }
})

function expectRefused(ran: Scene, why: RegExp): void {
  expect(ran).toMatchObject({ exit: 2, outputs: { verdict: 'error', checked: '0' } })
  expect(ran.commands[0]?.data).toMatch(why)
}

describe('what the base has is proved, or the run ends', () => {
  test('a checkout without the contents of files lacks those of the base alone', async () => {
    for (const filter of ['blob:none', 'tree:0']) {
      const ran = await onPullRequest(delivery, loosened, { checkout: { filter } })
      expectRefused(ran, /Git can't (?:read|list|tell).*no filter/)
    }
  })

  test.each(['brand.yaml', 'staff.csv', 'waivers.yaml'])('%s is a link in the base', async (name) => {
    const content = delivery[name] ?? ''
    const base = { ...delivery, [`kept/${name}`]: content, [name]: { link: `kept/${name}` } }
    expectRefused(await onPullRequest(base, loosened), new RegExp(`there, ${name} is a link`))
  })

  test('a folder on the way is a link in the base', async () => {
    const base = { ...delivery, 'kept/brand.yaml': SPEC, rules: { link: 'kept' } }
    const change = { rules: null, 'rules/brand.yaml': ANY_SIZE, ...loosened }
    const ran = await onPullRequest(base, change, { inputs: { spec: 'rules/brand.yaml' } })
    expectRefused(ran, /there, rules is a link/)
  })

  test('the spec is in a submodule of the base', async () => {
    const rules = await Repository.create(await ownFolder(), { 'brand.yaml': SPEC })
    const { 'brand.yaml': _, ...rest } = delivery
    const outer = await Repository.create(await ownFolder(), rest)
    await outer.addSubmodule(rules, 'rules')
    await outer.commit({})
    const setting = { inputs: { spec: 'rules/brand.yaml' }, checkout: { submodules: true } }
    expectRefused(await onRequestTo(outer, { [GRIEVE]: bad }, setting), /there, rules is a submodule/)
  })

  test('a base whose objects are gone is not one without a spec', async () => {
    const prepare = async (workspace: string) => {
      await rm(`${workspace}/.git/objects`, { recursive: true })
    }
    const ran = await onPullRequest(delivery, loosened, { prepare })
    expect(ran).toMatchObject({ exit: 2, outputs: { verdict: 'error' } })
  })

  test('a base that provably has no spec is told', async () => {
    const { 'brand.yaml': _, ...base } = delivery
    const ran = await onPullRequest(base, { 'brand.yaml': SPEC })
    expect(ran).toMatchObject({ exit: 0, outputs: { checked: '4' } })
    expect(ran.summary).toContain('has no brand.yaml yet')
  })
})

describe('a base whose own spec is broken', () => {
  const broken = () => ({ ...delivery, 'brand.yaml': `${SPEC}headrom: { min: 6 }\n` })

  test('is repaired by a change that touches no portrait', async () => {
    const ran = await onPullRequest(broken(), { 'brand.yaml': SPEC })
    expect(ran).toMatchObject({ exit: 0, outputs: { checked: '4' } })
    expect(ran.summary).toMatch(/of the base commit .* is broken .*judged by its own version/)
  })

  test('is not repaired by one that brings portraits along', async () => {
    for (const change of [
      loosened,
      { 'brand.yaml': SPEC, [GRIEVE]: null, 'staff.csv': 'family,given\nA,B\n' },
    ])
      expectRefused(await onPullRequest(broken(), change), /Repair it in a change that touches no portrait/)
  })

  test('nor by one that takes a portrait without a name of one away', async () => {
    const base = { ...broken(), 'portraits/Grieve-Morag': bad }
    const change = { 'brand.yaml': SPEC, 'portraits/Grieve-Morag': null }
    expectRefused(await onPullRequest(base, change), /Repair it in a change that touches no portrait/)
    const notes = { ...broken(), 'portraits/notes': 'Retouched by hand.' }
    const ran = await onPullRequest(notes, { 'brand.yaml': SPEC, 'portraits/notes': null })
    expect(ran).toMatchObject({ exit: 0, outputs: { checked: '4' } })
  })

  test('a roster that the base names and does not have is repaired likewise', async () => {
    const { 'staff.csv': staff = '', ...base } = delivery
    expect(await onPullRequest(base, { 'staff.csv': staff })).toMatchObject({ exit: 0 })
    expectRefused(await onPullRequest(base, { 'staff.csv': staff, [GRIEVE]: bad }), /staff\.csv is not there/)
  })
})

describe('an input that names a file the base lacks', () => {
  const setting = { inputs: { waivers: 'approved.yaml' } }

  test('takes effect once the file is merged: until then the one that the spec names counts', async () => {
    const change = { 'approved.yaml': '[]\n', [GRIEVE]: bad }
    const ran = await onPullRequest(delivery, change, setting)
    expect(ran).toMatchObject({ exit: 1, outputs: { failed: '1' } })
    expect(ran.summary).toContain('no approved.yaml yet: the waivers file takes effect once it is merged')
    const { 'waivers.yaml': _, ...without } = delivery
    expectRefused(await onPullRequest(without, change, setting), /waivers\.yaml is not there/)
  })

  test('and the change lacks it too: the workflow is told, not the spec', async () => {
    expectRefused(
      await onPullRequest(delivery, { [GRIEVE]: bad }, setting),
      /approved\.yaml, which the workflow names as the waivers file, is in neither/,
    )
  })
})

describe('an input or an event that says nothing does not open the gate', () => {
  test('spec-from-base that is empty stands as it does by itself', async () => {
    const ran = await onPullRequest(delivery, loosened, { inputs: { 'spec-from-base': '' } })
    expect(ran).toMatchObject({ exit: 1, outputs: { failed: '4' } })
  })

  const onEvent = (eventName: string, event?: object): Setting => ({
    job: { eventName, ...(event && { event }) },
  })

  test.each(['pull_request_review', 'pull_request_review_comment'])('%s has a base', async (name) => {
    const ran = await onPullRequest(delivery, loosened, onEvent(name))
    expect(ran).toMatchObject({ exit: 1, outputs: { failed: '4' } })
  })

  test.each(['workflow_run', 'issue_comment', 'discussion', 'pull_request_target'])(
    '%s is refused',
    async (name) => {
      const ran = await onPullRequest(delivery, loosened, onEvent(name, {}))
      expectRefused(ran, /run (?:this|it) on pull_request/)
    },
  )

  test('a change that is checked out on an event of the repository is refused', async () => {
    const repository = await Repository.create(await ownFolder(), delivery)
    const main = await repository.git('rev-parse', 'main')
    const { sha } = await repository.pullRequest(loosened)
    const [workspace, temp] = [await ownFolder(), await ownFolder()]
    await repository.checkout(workspace, sha, '0')
    const job = { workspace, temp, eventName: 'workflow_dispatch', event: {}, sha: main }
    const ran = await judged({ paths: 'portraits' }, job)
    expect(ran).toMatchObject({ exit: 2, outputs: { verdict: 'error' } })
  })
})
