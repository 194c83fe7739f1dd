import { execFile } from 'node:child_process'
import { copyFile, mkdir, mkdtemp, readFile, realpath, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { Repository } from '../action/runner/repository.ts'

const run = promisify(execFile)
const npm = (cwd: string, ...args: readonly string[]) =>
  run('npm', [...args, '--prefer-offline', '--no-audit', '--no-fund'], { cwd })

// What a build needs; pictures are none of it.
const NEEDED =
  /^(?:src|scripts|examples|schemas|docs|tests)\/.*\.(?:ts|json|md|yaml)$|^[^/]+\.(?:json|md)$|^LICENSE$/

let temp = ''
/** An empty folder but for what npm has put into it. */
let project = ''
beforeAll(async () => {
  temp = await realpath(await mkdtemp(join(tmpdir(), 'install-')))
  project = join(temp, 'project')
  await mkdir(project)
  const { stdout } = await run('git', ['ls-files', '-z'], { maxBuffer: 2 ** 24 })
  const paths = stdout.split('\0').filter((path) => NEEDED.test(path))
  const files = await Promise.all(paths.map(async (path) => [path, await readFile(path)] as const))
  const repository = await Repository.create(temp, Object.fromEntries(files))
  const commit = await repository.git('rev-parse', 'HEAD')
  // Later commits are not what was asked for.
  await repository.commit({ 'package.json': '{ "name": "portrait-gate", "version": "9.9.9" }' })
  await npm(temp, 'pack', `git+file://${repository.folder}#${commit}`)
  await npm(project, 'install', join(temp, `portrait-gate-${await version()}.tgz`))
})
afterAll(() => rm(temp, { recursive: true }))

async function version(): Promise<string> {
  return JSON.parse(await readFile('package.json', 'utf8')).version
}

const command = (...args: readonly string[]) =>
  run('npx', ['--no', '--', 'portrait-gate', ...args], { cwd: project })

test('a commit of the repository packs, built, and installs in an empty folder', async () => {
  expect((await command('--version')).stdout).toBe(`${await version()}\n`)
})

test('what is installed measures and judges', async () => {
  const good = 'examples/osprey-lane/delivery-clean/web/Nair-Priya_15388.jpg'
  await mkdir(join(project, 'portraits'))
  await copyFile(good, join(project, 'portraits', 'Nair.jpg'))
  const spec = 'brand: Osprey Lane Veterinary Group\nversion: 1\nheadroom: { min: 4, max: 10 }\n'
  await writeFile(join(project, 'brand.yaml'), spec)
  const { stdout } = await command('check', 'portraits', '--no-cache')
  expect(stdout).toContain('PASS    1 portrait: 1 pass, 0 fail, 0 unsure')
})

test('the README and the pages show that way, and never a command that would fetch a stranger', async () => {
  const pages = ['README.md', 'docs/whole-delivery.md', 'docs/github-action.md', 'docs/pre-commit.md']
  const texts = await Promise.all(pages.map((page) => readFile(page, 'utf8')))
  expect(texts[0]).toMatch(/npm pack "git\+https:\/\/\S+#[0-9a-f]{40}"/)
  for (const text of texts)
    for (const [, block = ''] of text.matchAll(/```\w+\n(.*?)```/gs))
      expect(block).not.toMatch(/npx (?!--no )|npm install (?:--global )?portrait-gate/)
})
