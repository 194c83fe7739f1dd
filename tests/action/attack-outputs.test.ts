import { existsSync } from 'node:fs'
import { cp, mkdir, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises'
import { join, relative } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { openEntries } from '../../src/cache/entries.ts'
import { measurerId } from '../../src/cache/measurer.ts'
import { stopOnSignals } from '../../src/commands/stop.ts'
import { readHashed } from '../../src/measure/file/read-file.ts'
import { measure } from '../../src/measure/measure.ts'
import { picture, smallDelivery } from './runner/deliveries.ts'
import { logCommands } from './runner/log-commands.ts'
import type { Files } from './runner/repository.ts'
import { onPullRequest, ownFolder, type Scene } from './runner/scene.ts'

let delivery: Files
let bad: Buffer
const GRIEVE = 'portraits/Grieve-Morag.jpg'
beforeAll(async () => {
  delivery = await smallDelivery()
  bad = await picture(60, 75)
})

/** Ended as nothing judged, with a sentence and no trace of the program's insides. */
function expectError(ran: Scene, why: RegExp): void {
  expect(ran.log).toMatch(why)
  expect(ran.log).not.toMatch(/\.ts:\d+/)
  expect(ran).toMatchObject({ exit: 2, outputs: { verdict: 'error', 'report-json': '' } })
  expect(ran.summary).toContain('Nothing was judged.')
}

describe('a report folder that a change has a hand in', () => {
  test.each(['/dev/stdout', '/dev/null', '/dev/zero', '/dev/full', '../brand.yaml'])(
    'with a link to %s in place of a report',
    async (link) => {
      for (const name of ['report.json', 'report.md', 'report.html']) {
        const change = { [`portrait-report/${name}`]: { link }, 'portraits/::error::x.jpg': bad }
        const ran = await onPullRequest(delivery, change)
        expectError(ran, /The commit has portrait-report, in the report folder/)
        expect(ran.commands).toHaveLength(1)
      }
    },
  )

  test.each(['/dev/stdout', '/dev/zero', 'elsewhere.json'])(
    'with a link to %s that a step before put there: the link is replaced',
    async (link) => {
      const prepare = async (workspace: string) => {
        await mkdir(join(workspace, 'portrait-report'))
        await symlink(link, join(workspace, 'portrait-report/report.json'))
      }
      const ran = await onPullRequest(delivery, { 'portraits/::error::x.jpg': bad }, { prepare })
      expect(ran).toMatchObject({ exit: 1, outputs: { verdict: 'fail', checked: '5' } })
      const report = await readFile(join(ran.workspace, 'portrait-report/report.json'), 'utf8')
      expect(JSON.parse(report).totals.files).toBe(5)
      expect(logCommands(ran.log).every(({ name }) => ['error', 'warning', 'notice'].includes(name))).toBe(
        true,
      )
      expect(existsSync(join(ran.workspace, 'portrait-report/elsewhere.json'))).toBe(false)
    },
  )

  test('that is a link, or lies below one, or is spelled in capitals', async () => {
    const below = { inputs: { 'report-folder': 'out/reports' } }
    const outside = await ownFolder()
    for (const link of ['portraits', '.git/hooks', outside, 'nowhere'])
      expectError(await onPullRequest(delivery, { 'portrait-report': { link } }), /The report folder/)
    for (const link of ['portraits', outside, 'nowhere'])
      expectError(
        await onPullRequest(delivery, { out: { link } }, below),
        /The report folder out\/reports leads elsewhere/,
      )
    expect(await readdir(outside)).toEqual([])
    const twin = { 'Portrait-Report/report.html': '<b>All fine</b>' }
    expectError(await onPullRequest(delivery, twin), /The commit has Portrait-Report/)
  })

  test('that is a file, or can not be written to', async () => {
    const inputs = { 'report-folder': 'brand.yaml/reports' }
    expectError(await onPullRequest(delivery, {}, { inputs }), /The commit has brand\.yaml/)
    const prepare = async (workspace: string) => {
      await writeFile(join(workspace, 'portrait-report'), 'x')
    }
    expectError(await onPullRequest(delivery, {}, { prepare }), /can't be written to \(EEXIST\)/)
    const folders = async (workspace: string) => {
      await mkdir(join(workspace, 'portrait-report/report.html'), { recursive: true })
    }
    expectError(await onPullRequest(delivery, {}, { prepare: folders }), /report\.html could not be written/)
  })

  test('ignores itself, so that no later step commits faces', async () => {
    const ran = await onPullRequest(delivery, {})
    expect(await readFile(join(ran.workspace, 'portrait-report/.gitignore'), 'utf8')).toBe('*\n')
  })
})

describe('a cache that a change has a hand in', () => {
  test('anywhere but in the temporary folder of the runner is refused', async () => {
    for (const cache of ['/', '../cache', await ownFolder()]) {
      const ran = await onPullRequest(delivery, {}, { inputs: { 'cache-folder': cache } })
      expectError(ran, /The cache folder .* is not in the runner's temporary folder/)
    }
  })

  test('a forged entry that it commits is not what is read', async () => {
    const inputs = { 'cache-folder': 'portrait-cache' }
    const folder = join(await ownFolder(), 'forged')
    const groups = ['file', 'checksum', 'decode', 'metadata'] as const
    const [honest, wanted] = await Promise.all([
      measure({ path: await written(await picture()), file: '' }, groups),
      readHashed(await written(bad)),
    ])
    const entries = openEntries({ folder, measurer: measurerId() })
    await entries.keep(wanted.sha256 ?? '', groups, honest)
    const forged: Record<string, Buffer> = {}
    for (const name of await readdir(folder, { recursive: true, withFileTypes: true }))
      if (name.isFile()) {
        const path = join(name.parentPath, name.name)
        forged[`portrait-cache/${relative(folder, path)}`] = await readFile(path)
      }
    expect(Object.keys(forged)).toHaveLength(1)
    const ran = await onPullRequest(delivery, { ...forged, [GRIEVE]: bad }, { inputs })
    expect(ran).toMatchObject({ exit: 1, outputs: { failed: '1' } })
    // Where the runner itself would keep it, it would have been believed: the entry is a good forgery.
    const prepare = async (workspace: string) => {
      await cp(folder, join(workspace, '../temp/portrait-cache'), { recursive: true })
    }
    const believed = await onPullRequest(delivery, { [GRIEVE]: bad }, { inputs, prepare })
    expect(believed).toMatchObject({ exit: 0 })
  })
})

async function written(content: Buffer): Promise<string> {
  const path = join(await ownFolder(), 'picture.jpg')
  await writeFile(path, content)
  return path
}

describe('a runner that is not as it should be', () => {
  test('no temporary folder', async () => {
    const ran = await onPullRequest(delivery, {}, { job: { env: { RUNNER_TEMP: '/nowhere/at/all' } } })
    expect(ran).toMatchObject({ exit: 2, commands: [{ name: 'error' }] })
    expect(ran.log).toContain('There is no folder /nowhere/at/all')
  })

  test("files of the runner's that can't be written to", async () => {
    for (const name of ['GITHUB_OUTPUT', 'GITHUB_STEP_SUMMARY']) {
      const ran = await onPullRequest(delivery, {}, { job: { env: { [name]: '/nowhere/at/all' } } })
      expect(ran.exit).toBe(2)
      expect(ran.log).toMatch(/The runner's own files can't be written to/)
      expect(ran.log).not.toMatch(/\.ts:\d+/)
    }
  })

  // POSIX, kill(1) and the shells' convention: 128 and the number of the signal, 2 and 15.
  test.each([
    ['SIGINT', 130],
    ['SIGTERM', 143],
  ] as const)('%s ends with %i, and says so', async (name, exit) => {
    const listeners = new Map<string, () => void>()
    const signal = stopOnSignals((one, listener) => listeners.set(one, listener))
    listeners.get(name)?.()
    const ran = await onPullRequest(delivery, {}, { job: { signal } })
    expect(ran).toMatchObject({ exit, outputs: { verdict: 'error' } })
    expect(ran.log).toContain(`Stopped by ${name}.`)
    expect(ran.summary).toContain(`Stopped by ${name}.`)
  })

  test('no repository, and files that look like a bare one', async () => {
    // git-config(1), safe.bareRepository; the settings of such a repository could start a program.
    const prepare = async (workspace: string) => {
      await rm(join(workspace, '.git'), { recursive: true })
      for (const folder of ['objects', 'refs']) await mkdir(join(workspace, folder))
      await writeFile(join(workspace, 'HEAD'), 'ref: refs/heads/main\n')
      const config = `[core]\n\tbare = false\n\tworktree = .\n\tfsmonitor = touch ${workspace}/started\n`
      await writeFile(join(workspace, 'config'), config)
    }
    const ran = await onPullRequest(delivery, {}, { prepare })
    expectError(ran, /The workspace is not a git repository/)
    expect(existsSync(join(ran.workspace, 'started'))).toBe(false)
  })

  test('variables that point git elsewhere change nothing', async () => {
    const env = { GIT_DIR: '/nowhere', GIT_WORK_TREE: '/', GIT_INDEX_FILE: '/nowhere/index' }
    const ran = await onPullRequest(delivery, { [GRIEVE]: bad }, { job: { env } })
    expect(ran).toMatchObject({ exit: 1, outputs: { failed: '1' } })
  })
})
