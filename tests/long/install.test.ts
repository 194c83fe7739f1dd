import { execFile } from 'node:child_process'
import {
  copyFile,
  cp,
  mkdir,
  mkdtemp,
  readdir,
  readFile,
  realpath,
  rm,
  symlink,
  writeFile,
} from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { basename, dirname, join, resolve } from 'node:path'
import { promisify } from 'node:util'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { picture, smallDelivery } from '../action/runner/deliveries.ts'
import { releaseCopy } from '../action/runner/release-copy.ts'
import { Repository } from '../action/runner/repository.ts'
import { type Ran, runComposite } from '../action/runner/run-action.ts'
import { nodeOf } from '../outside/node-builds.ts'
import { built } from '../pool/built.ts'

const run = promisify(execFile)
const npm = (cwd: string, ...args: readonly string[]) =>
  run('npm', [...args, '--prefer-offline', '--no-audit', '--no-fund'], { cwd })

// What a build needs; of the pictures those that its code is compiled by.
const NEEDED =
  /^(?:src|scripts|examples|schemas|docs|tests)\/.*\.(?:c?ts|json|md|yaml)$|^examples\/osprey-lane\/(?:delivery-clean\/.*\.jpg|staff\.csv)$|^[^/]+\.(?:json|md|yml)$|^LICENSE$|^\.gitignore$/

let temp = ''
let repository: Repository
/** The commit that holds our source. */
let source = ''
/** An empty folder but for what npm has put into it. */
let project = ''
beforeAll(async () => {
  temp = await realpath(await mkdtemp(join(tmpdir(), 'install-')))
  project = join(temp, 'project')
  await mkdir(project)
  const { stdout } = await run('git', ['ls-files', '-z'], { maxBuffer: 2 ** 24 })
  const paths = stdout.split('\0').filter((path) => NEEDED.test(path))
  const files = await Promise.all(paths.map(async (path) => [path, await readFile(path)] as const))
  repository = await Repository.create(temp, Object.fromEntries(files))
  source = await repository.git('rev-parse', 'HEAD')
  // Later commits are not what was asked for.
  await repository.commit({ 'package.json': '{ "name": "portrait-gate", "version": "9.9.9" }' })
  await npm(temp, 'pack', `git+file://${repository.folder}#${source}`)
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

test('no network is installed but those that are run, and in all less than 60 MB', async () => {
  const all = await readdir(project, { recursive: true, withFileTypes: true })
  const files = all.filter((one) => one.isFile()).map(({ parentPath, name }) => join(parentPath, name))
  const networks = /\.(?:tflite|pb|pbtxt|binarypb|task|data)$/
  expect(
    files
      .map((path) => basename(path))
      .filter((name) => networks.test(name))
      .sort(),
  ).toEqual([
    'face_detection_full_range.tflite',
    'face_detection_short_range.tflite',
    'face_landmark.tflite',
    'selfie_segmentation.tflite',
  ])
  const { stdout } = await run('du', ['--summarize', '--block-size=1000000', 'node_modules'], {
    cwd: project,
  })
  expect(Number.parseInt(stdout, 10)).toBeLessThan(60)
})

describe.each([20, 22, 24] as const)('on Node %d, in that folder', (version) => {
  let node: string
  beforeAll(async () => {
    node = await nodeOf(version)
  })

  test('the demo finds what was planted, and nothing else', async () => {
    const example = join(project, 'examples', 'osprey-lane')
    await cp('examples/osprey-lane', example, { recursive: true })
    const demo = join(await built(), 'scripts', 'demo.js')
    const cli = join('node_modules', 'portrait-gate', 'bundle', 'cli.js')
    // It ends with 1, and this would throw, were anything not as planted.
    const { stdout } = await run(process.execPath, [demo, join(node, 'node'), cli], {
      cwd: project,
      maxBuffer: 2 ** 24,
    })
    expect(stdout).toContain('all planted faults were found, and nothing else')
  })

  test('the Action judges a pull request', async () => {
    const action = await releaseCopy()
    const pullRequest = async (shade: number, width: number): Promise<Ran> => {
      const repository = await Repository.create(temp, await smallDelivery())
      const change = { 'portraits/Grieve-Morag.jpg': await picture(width, 100, shade) }
      const { sha, event } = await repository.pullRequest(change)
      const workspace = join(await mkdtemp(join(temp, 'work ')), 'space')
      await repository.checkout(workspace, sha, '2')
      const job = { workspace, temp, eventName: 'pull_request', event, sha, node }
      return runComposite(action, { paths: 'portraits' }, job)
    }
    expect(await pullRequest(90, 80)).toMatchObject({ ok: true, outputs: { verdict: 'pass', checked: '4' } })
    expect(await pullRequest(90, 60)).toMatchObject({ ok: false, outputs: { verdict: 'fail', failed: '1' } })
    await rm(dirname(action), { recursive: true })
  })
})

test('a release holds the packed form alone, comes out the same each time, and packs without a build', async () => {
  const { folder } = repository
  await repository.git('checkout', '-q', source)
  await repository.git('config', 'user.name', 'Test')
  await repository.git('config', 'user.email', 'test@example.invalid')
  await symlink(resolve('node_modules'), join(folder, 'node_modules'))
  await cp(await built(), join(folder, 'dist'), { recursive: true })
  // .gitignore names the folder, and here stands a link.
  await mkdir(join(folder, '.git', 'info'), { recursive: true })
  await writeFile(join(folder, '.git', 'info', 'exclude'), 'node_modules\n')
  const release = async () => {
    const script = join('dist', 'scripts', 'release.js')
    const { stdout } = await run(process.execPath, [script], { cwd: folder })
    return /[0-9a-f]{40}/.exec(stdout)?.[0] ?? ''
  }
  const [first, second] = [await release(), await release()]
  expect(await repository.git('rev-parse', `${first}^{tree}`)).toBe(
    await repository.git('rev-parse', `${second}^{tree}`),
  )
  expect(await repository.git('rev-parse', `${first}^`, 'HEAD')).toBe(`${source}\n${source}`)
  expect(await repository.git('status', '--porcelain')).toBe('')
  const holds = (await repository.git('ls-tree', '--name-only', first)).split('\n')
  expect(holds).toEqual([
    ...['CHANGELOG.md', 'LICENSE', 'README.md', 'action.yml', 'bundle', 'docs'],
    ...['package-lock.json', 'package.json', 'schemas'],
  ])
  await repository.git('branch', 'release', first)
  const packed = await mkdtemp(join(temp, 'packed-'))
  await npm(packed, 'pack', `git+file://${folder}#${first}`)
  await npm(packed, 'install', '--prefix', packed, join(packed, `portrait-gate-${await version()}.tgz`))
  const cli = join(packed, 'node_modules', 'portrait-gate', 'bundle', 'cli.js')
  expect((await run(process.execPath, [cli, '--version'])).stdout).toBe(`${await version()}\n`)
})

test('a commit that is no release says what to pin the action to', async () => {
  const action = await mkdtemp(join(temp, 'source '))
  await copyFile('action.yml', join(action, 'action.yml'))
  const job = { workspace: temp, temp, eventName: 'push', event: {}, sha: '0'.repeat(40), node: '' }
  const ran = await runComposite(action, {}, job)
  expect(ran).toMatchObject({ ok: false, outputs: { verdict: '' } })
  expect(ran.log).toContain('The commit that this action is pinned to is not one of a release.')
})

test('the README and the pages show that way, and never a command that would fetch a stranger', async () => {
  const pages = ['README.md', 'docs/whole-delivery.md', 'docs/github-action.md', 'docs/pre-commit.md']
  const texts = await Promise.all(pages.map((page) => readFile(page, 'utf8')))
  expect(texts[0]).toMatch(/npm pack "git\+https:\/\/\S+#[0-9a-f]{40}"/)
  for (const text of texts)
    for (const [, block = ''] of text.matchAll(/```\w+\n(.*?)```/gs))
      expect(block).not.toMatch(/npx (?!--no )|npm install (?:--global )?portrait-gate/)
})
