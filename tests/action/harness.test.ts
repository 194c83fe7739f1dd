import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { marked } from 'marked'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { nodeOf } from '../outside/node-builds.ts'
import { exampleDelivery, picture, SPEC, smallDelivery } from './runner/deliveries.ts'
import { releaseCopy } from './runner/release-copy.ts'
import { type Files, Repository } from './runner/repository.ts'
import { type Ran, runComposite } from './runner/run-action.ts'
import { runWorkflow } from './runner/run-workflow.ts'

let node: string
let action: string
let temp: string
let delivery: Files
let clean: Ran

/** Of Node: what one run of the action has compiled the next need not compile again. */
const machine = () => ({ NODE_COMPILE_CACHE: join(temp, 'compiled') })

/** Nobody answers at port 9 (RFC 863, discard), and npm asks once. */
const OFFLINE = {
  npm_config_proxy: 'http://127.0.0.1:9/',
  npm_config_https_proxy: 'http://127.0.0.1:9/',
  npm_config_noproxy: '',
  npm_config_fetch_retries: '0',
}

beforeAll(async () => {
  node = await nodeOf(24)
  action = await releaseCopy()
  temp = await mkdtemp(join(tmpdir(), 'runner temp '))
  delivery = await smallDelivery()
  const change = { 'portraits/Grieve-Morag.jpg': await picture(80, 100, 90) }
  // The first run installs. Where npm has not all of it yet, a run before takes it from the registry.
  clean = await onPullRequest(change, delivery, OFFLINE)
  if (clean.ok) return
  await onPullRequest(change)
  await rm(dirname(action), { recursive: true, force: true })
  action = await releaseCopy()
  clean = await onPullRequest(change, delivery, OFFLINE)
})

// What is installed takes 37 MB.
afterAll(async () => {
  await rm(dirname(action), { recursive: true, force: true })
  await rm(temp, { recursive: true, force: true })
})

/** Runs the action on a pull request to the small delivery, or another. */
async function onPullRequest(
  change: Files,
  base = delivery,
  more: Readonly<Record<string, string>> = {},
): Promise<Ran> {
  const { repository, sha, event } = await Repository.withRequest(temp, base, change)
  const workspace = join(await mkdtemp(join(temp, 'work ')), 'space')
  await repository.checkout(workspace, sha, '2')
  const job = { workspace, temp, eventName: 'pull_request', event, sha, node }
  const own = { ...machine(), ...more }
  return runComposite(action, { paths: 'portraits' }, { ...job, machine: own })
}

function told(ran: Ran, name: string) {
  return ran.commands.filter((command) => command.name === name)
}

test('a pull request that is clean passes, with outputs and a summary', () => {
  const ran = clean
  expect(ran.log).toContain('4 portraits: 4 pass, 0 fail')
  expect(ran).toMatchObject({
    ok: true,
    commands: [],
    outputs: {
      verdict: 'pass',
      checked: '4',
      failed: '0',
      unsure: '0',
      'report-json': 'portrait-report/report.json',
      'report-html': 'portrait-report/report.html',
    },
  })
  expect(ran.summary).toContain('## All 4 portraits pass.')
  expect(ran.summary).toContain('### Who has what')
})

test('installing what was installed before asks nobody: npm has it all, checked by the lock file', () => {
  expect(clean.log).toMatch(/added \d+ packages/)
})

test('hostile names come out harmless in log, annotations, summary and outputs', async () => {
  const names = [
    'a\n::error::x',
    '::error::x',
    ' ::set-output name=verdict::pass',
    '##[add-mask]x',
    '::add-mask::x',
    'a|b`c`',
    '<img src=x onerror=alert(1)>',
    '@team',
    'a\u202egpj',
    'verdict=pass',
    'x'.repeat(251),
  ]
  const small = await picture(60, 75)
  const spec = `${SPEC.replace('Osprey Lane', '::warning::Osprey ##[add-mask] Lane')}advisory: []\n`
  const base = { ...delivery, 'brand.yaml': spec }
  const change = Object.fromEntries(names.map((name) => [`portraits/${name}.jpg`, small]))
  const ran = await onPullRequest(change, base)
  expect(ran.outputs).toMatchObject({ verdict: 'fail', checked: '15', failed: '11' })
  expect(Object.keys(ran.outputs)).toHaveLength(7)
  expect(told(ran, 'error')).toHaveLength(9)
  expect(told(ran, 'notice')).toHaveLength(1)
  expect(ran.commands).toHaveLength(10)
  expect(ran.log).not.toContain('##[')
  for (const line of ran.log.split('\n')) {
    const message = line.startsWith('::') ? line.slice(line.indexOf('::', 2) + 2) : line
    expect(message).not.toContain('::')
  }
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  expect(ran.log).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u202e]/)
  const html = marked.parse(ran.summary, { async: false })
  expect(html).not.toMatch(/<img|<code>|@team/)
  expect(ran.summary).not.toContain('\u202e')
})

describe('the example workflows, start to end', () => {
  const start = async (files: Files) => {
    const repository = await Repository.create(temp, files)
    return { repository, action, temp, node, machine: machine() }
  }

  test('pull-request.yml', async () => {
    const begun = await start(delivery)
    const change = await begun.repository.pullRequest({ 'portraits/Farouk-Layla.jpg': await picture(60, 75) })
    const event = { eventName: 'pull_request', ref: 'refs/pull/1/merge', ...change }
    const run = await runWorkflow('examples/workflows/pull-request.yml', { ...begun, ...event })
    expect(run).toMatchObject({ ok: false, ran: [{ outputs: { verdict: 'fail', checked: '1' } }] })
    expect(await readdir(join(run.artifacts, 'portrait-report'))).toContain('report.html')
  })

  test('gallery-cache.yml keeps what pull-request.yml restores, and no pull request saves', async () => {
    const caches = new Map<string, string>()
    const begun = { ...(await start(delivery)), caches }
    const sha = await begun.repository.git('rev-parse', 'HEAD')
    const push = { eventName: 'push', event: { before: '0'.repeat(40) }, ref: 'refs/heads/main', sha }
    const kept = await runWorkflow('examples/workflows/gallery-cache.yml', { ...begun, ...push })
    expect(kept).toMatchObject({ ok: true, ran: [{ outputs: { verdict: 'pass', checked: '4' } }] })
    expect([...caches.keys()]).toEqual([`portraits-${sha}`])
    const entries = await readdir(caches.get(`portraits-${sha}`) ?? '')
    const change = await begun.repository.pullRequest({ 'portraits/Farouk-Layla.jpg': await picture(60, 75) })
    const event = { eventName: 'pull_request', ref: 'refs/pull/1/merge', ...change }
    const run = await runWorkflow('examples/workflows/pull-request.yml', { ...begun, ...event })
    expect(run).toMatchObject({ ok: false, ran: [{ outputs: { verdict: 'fail', failed: '1' } }] })
    expect(caches.size).toBe(1)
    expect(await readdir(caches.get(`portraits-${sha}`) ?? '')).toEqual(entries)
  })

  test('nightly.yml: four parts, put together', async () => {
    const begun = await start({ ...delivery, 'portraits/Farouk-Layla.jpg': await picture(60, 75) })
    const sha = await begun.repository.git('rev-parse', 'HEAD')
    const event = { eventName: 'schedule', event: {}, ref: 'refs/heads/main', sha }
    const run = await runWorkflow('examples/workflows/nightly.yml', { ...begun, ...event })
    const whole = run.ran[4]
    expect(run.ran).toHaveLength(5)
    const parts = run.ran.slice(0, 4).map(({ outputs }) => Number(outputs.checked))
    expect(parts.reduce((sum, one) => sum + one)).toBe(4)
    expect(run.ok).toBe(false)
    expect(whole?.outputs).toMatchObject({ verdict: 'fail', checked: '4', failed: '1' })
    expect(told(whole as Ran, 'error')[0]?.properties.file).toBe('portraits/Farouk-Layla.jpg')
    const report = await readFile(join(run.artifacts, 'portrait-report', 'report.json'), 'utf8')
    expect(JSON.parse(report)).toMatchObject({ totals: { files: 4, fail: 1 } })
  })

  test('hand-over.yml, on drawn sitters of the example, seals what receive.yml takes from a release', async () => {
    const begun = await start(await exampleDelivery())
    const sha = await begun.repository.git('rev-parse', 'HEAD')
    const event = { before: '0'.repeat(40) }
    const tag = { eventName: 'push', event, ref: 'refs/tags/hand-over-1', sha }
    const run = await runWorkflow('examples/workflows/hand-over.yml', { ...begun, ...tag })
    expect(run).toMatchObject({ ok: true, ran: [{ outputs: { verdict: 'pass', checked: '4' } }] })
    expect(await readdir(run.artifacts)).toEqual(['delivery-hand-over-1'])
    // In place of GitHub's own program, which asks its server.
    const tools = await mkdtemp(join(temp, 'tools-'))
    const asset = join(run.artifacts, 'delivery-hand-over-1', 'delivery.zip')
    const asked =
      'release download received-1 --repo osprey-lane/portraits --pattern delivery.zip --dir received'
    await writeFile(
      join(tools, 'gh'),
      `#!/bin/bash\n[ "$*" = "${asked}" ] && [ -n "$GH_TOKEN" ] && mkdir received && cp "${asset}" received/\n`,
      { mode: 0o755 },
    )
    const release = { eventName: 'release', event: {}, ref: 'refs/tags/received-1', sha, tools }
    const taken = await runWorkflow('examples/workflows/receive.yml', { ...begun, ...release })
    expect(taken).toMatchObject({ ok: true, ran: [{ outputs: { verdict: 'pass', checked: '4', bag: '' } }] })
    expect(taken.ran[0]?.summary).toContain('delivery.zip is whole and unchanged')
    expect(await readdir(join(taken.artifacts, 'portrait-report-received-1'))).toContain('report.html')
  })
})
