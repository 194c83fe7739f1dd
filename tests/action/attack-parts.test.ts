import { createHash } from 'node:crypto'
import { cp, mkdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { LOOSE_SPEC, picture, smallDelivery } from './runner/deliveries.ts'
import { type Ended, judged } from './runner/in-process.ts'
import { type Files, Repository } from './runner/repository.ts'
import { ownFolder } from './runner/scene.ts'

let delivery: Files
let bad: Buffer
/** Of a change that does nothing. */
let good: Divided
const GRIEVE = 'portraits/Grieve-Morag.jpg'
beforeAll(async () => {
  delivery = await smallDelivery()
  bad = await picture(60, 75)
  good = await divided({})
})

const MERGE = { paths: 'portraits', merge: 'parts' }

type Divided = Awaited<ReturnType<typeof divided>>

/** A pull request that two jobs judge in parts; a third one puts the parts together, as `merged` says. */
async function divided(change: Files, { spec = 'true', run = '1' } = {}) {
  const repository = await Repository.create(await ownFolder(), delivery)
  const { sha, event } = await repository.pullRequest(change)
  const parts = await ownFolder()
  const temp = await ownFolder()
  for (const number of [1, 2]) {
    const workspace = join(await ownFolder(), 'work')
    await repository.checkout(workspace, sha, '2')
    const inputs = { paths: 'portraits', shard: `${number}/2`, 'spec-from-base': spec }
    const job = { workspace, temp, eventName: 'pull_request', event, sha, run }
    await judged(inputs, job)
    await cp(join(workspace, 'portrait-report/report.json'), join(parts, `${number}.json`))
  }
  return { repository, sha, event, parts, temp }
}

interface Merge {
  readonly inputs?: Readonly<Record<string, string>>
  readonly checkout?: boolean
  readonly sha?: string
  readonly eventName?: string
  readonly edit?: (text: string) => string
}

async function merged(
  { repository, sha, event, parts, temp }: Divided,
  { inputs = {}, checkout = true, edit = (text) => text, ...other }: Merge = {},
): Promise<Ended & { readonly workspace: string }> {
  const workspace = join(await ownFolder(), 'work')
  const commit = other.sha ?? sha
  await mkdir(workspace)
  if (checkout) await repository.checkout(workspace, commit, '2')
  await mkdir(join(workspace, 'parts'), { recursive: true })
  for (const name of ['1.json', '2.json'])
    await writeFile(join(workspace, 'parts', name), edit(await readFile(join(parts, name), 'utf8')))
  const eventName = other.eventName ?? 'pull_request'
  const job = { workspace, temp, eventName, event, sha: commit }
  return { ...(await judged({ ...MERGE, ...inputs }, job)), workspace }
}

function expectRefused(ran: Ended, why: RegExp): void {
  expect(ran).toMatchObject({ exit: 2, outputs: { verdict: 'error' } })
  expect(ran.log).toMatch(why)
}

describe('parts of a pull request', () => {
  test('that fit are put together, with the checkout', async () => {
    const parts = await divided({ [GRIEVE]: bad })
    expect(await merged(parts)).toMatchObject({ exit: 1, outputs: { checked: '4', failed: '1' } })
    expect(await merged(good)).toMatchObject({ exit: 0, outputs: { checked: '4', failed: '0' } })
  })

  test('need the checkout, by which the spec of the base is known', async () => {
    const parts = await divided({ [GRIEVE]: bad })
    expectRefused(await merged(parts, { checkout: false }), /not a git repository/)
    expect(await merged(parts, { checkout: false, eventName: 'schedule' })).toMatchObject({ exit: 1 })
  })

  test('that the change itself commits are refused', async () => {
    const change: Record<string, string | Buffer> = { [GRIEVE]: bad }
    for (const name of ['1.json', '2.json'])
      change[`parts/${name}`] = await readFile(join(good.parts, name), 'utf8')
    const { sha, event } = await good.repository.pullRequest(change)
    const ran = await merged({ ...good, sha, event })
    expectRefused(ran, /The commit has parts, in parts to merge/)
  })

  test('of another run, another commit or nowhere are refused', async () => {
    const other = await divided({}, { run: '2' })
    expectRefused(await merged(other), /are of run .*\/2, .*; this is run .*\/1/)
    const later = await good.repository.pullRequest({ [GRIEVE]: bad })
    expectRefused(await merged({ ...good, ...later }), /are of run .* commit /)
    const unbound = (text: string) =>
      JSON.stringify({ ...JSON.parse(text), part: { ...JSON.parse(text).part, origin: null } })
    expectRefused(await merged(good, { edit: unbound }), /are of no run of a workflow/)
  })

  test('are judged strictly when the job that puts them together asks for it', async () => {
    const strictly = async (inputs: Readonly<Record<string, string>>) => {
      const { workspace, outputs } = await merged(good, { inputs })
      return JSON.parse(await readFile(join(workspace, outputs['report-json'] ?? ''), 'utf8')).strict
    }
    expect(await strictly({})).toBe(false)
    expect(await strictly({ strict: 'true' })).toBe(true)
  })

  test('judged by the spec of the change are refused', async () => {
    const small = Object.keys(delivery).filter((path) => path.startsWith('portraits/'))
    const change = {
      'brand.yaml': LOOSE_SPEC.replace('height: 100', 'height: 75'),
      ...Object.fromEntries(small.map((path) => [path, bad])),
    }
    const parts = await divided(change, { spec: 'false' })
    expectRefused(await merged(parts), /were judged by another spec/)
    const inputs = { 'spec-from-base': 'false' }
    expect(await merged(parts, { inputs })).toMatchObject({ exit: 0 })
  })

  test('that measured other pictures, or list other files, are refused', async () => {
    const later = await good.repository.pullRequest({ [GRIEVE]: bad })
    const asLater = (text: string) => text.replaceAll(good.sha, later.sha)
    expectRefused(
      await merged({ ...good, ...later }, { edit: asLater }),
      /measured another picture as Grieve-Morag\.jpg/,
    )
    const more = await good.repository.pullRequest({ 'portraits/Nobody-Known.jpg': bad })
    const asMore = (text: string) => text.replaceAll(good.sha, more.sha)
    expectRefused(await merged({ ...good, ...more }, { edit: asMore }), /are of other files/)
  })

  test('measured from Git LFS fit pointers to the same content', async () => {
    const pointer = (content: Buffer) =>
      `version https://git-lfs.github.com/spec/v1\noid sha256:${createHash('sha256').update(content).digest('hex')}\nsize ${content.length}\n`
    const content = delivery[GRIEVE]
    const change = await good.repository.pullRequest({ [GRIEVE]: pointer(content as Buffer) })
    const edit = (text: string) => text.replaceAll(good.sha, change.sha)
    expect(await merged({ ...good, ...change }, { edit })).toMatchObject({ exit: 0 })
    const another = await good.repository.pullRequest({ [GRIEVE]: pointer(bad) })
    const asAnother = (text: string) => text.replaceAll(good.sha, another.sha)
    expectRefused(await merged({ ...good, ...another }, { edit: asAnother }), /measured another picture/)
  })
})
