import { execFile, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join, relative } from 'node:path'
import { promisify } from 'node:util'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { makeProgram } from '../../scripts/program/make-program.ts'
import { PLATFORMS, type Platform } from '../../scripts/program/platforms.ts'
import { exampleDelivery } from '../action/runner/deliveries.ts'
import { released } from '../package/released.ts'

let base: string
let program: string
const platform = PLATFORMS['linux-x64'] as Platform

beforeAll(async () => {
  base = await mkdtemp(join(tmpdir(), 'a program '))
  program = join(base, 'portrait gate')
  const from = await released()
  const entries = await readdir(from, { recursive: true, withFileTypes: true })
  const files = entries.filter((one) => one.isFile()).map((one) => join(one.parentPath, one.name))
  const contents = files.map(async (path) => [relative(from, path), await readFile(path)] as const)
  await makeProgram(program, platform, new Map(await Promise.all(contents)))
})
afterAll(() => rm(base, { recursive: true, force: true }))

/** Nothing on the search path, and nothing else that a machine may have set. */
const started = (cwd: string, ...args: string[]) =>
  promisify(execFile)(join(program, platform.start.file), args, { cwd, env: { PATH: '' } })

test('runs in an empty folder with nothing on the search path', async () => {
  const empty = join(base, 'empty')
  await mkdir(empty)
  const { version } = JSON.parse(await readFile('package.json', 'utf8'))
  expect((await started(empty, '--version')).stdout).toBe(`${version}\n`)
})

test('without arguments, as by a double click, it opens the page until it is stopped', async () => {
  const page = spawn(join(program, platform.start.file), { cwd: base, env: { PATH: '' } })
  try {
    const [said] = await once(page.stdout, 'data')
    const [address = ''] = /http:\S+/.exec(String(said)) ?? []
    expect(await (await fetch(address)).text()).toMatch(/^<!doctype html>/i)
  } finally {
    const ended = once(page, 'close')
    page.kill('SIGTERM')
    await ended
  }
})

test('checks drawn portraits of the example with its own networks and picture library', async () => {
  const folder = join(base, 'delivery')
  for (const [path, content] of Object.entries(await exampleDelivery())) {
    if (content === null || (typeof content === 'object' && 'link' in content)) continue
    await mkdir(dirname(join(folder, path)), { recursive: true })
    await writeFile(join(folder, path), content)
  }
  const { stdout } = await started(folder, 'check', 'portraits', '--no-cache')
  expect(stdout).toContain('4 portraits: 4 pass, 0 fail, 0 unsure')
})
