import { execFile } from 'node:child_process'
import { cp, mkdir, mkdtemp, readFile, stat, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { promisify } from 'node:util'
import { beforeAll, expect, test } from 'vitest'
import { type Packed, packed, tsc } from './packed.ts'

const run = promisify(execFile)
let installed: Packed
beforeAll(async () => {
  installed = await packed(await mkdtemp(join(tmpdir(), 'package-')))
})

test('every path that package.json names is in the package', async () => {
  const { bin, exports } = JSON.parse(await readFile('package.json', 'utf8'))
  const paths = [...leaves(bin), ...leaves(exports)].map((path) => path.replace(/^\.\//, ''))
  expect(paths.length).toBeGreaterThan(3)
  for (const path of paths) {
    const named = path.includes('*') ? new RegExp(`^${path.replace('*', '[^/]+')}$`) : path
    expect(installed.files).toContainEqual(typeof named === 'string' ? named : expect.stringMatching(named))
  }
})

/** The paths in a map of package.json, however deep. */
function leaves(exports: unknown): string[] {
  return typeof exports === 'object' && exports !== null
    ? Object.values(exports).flatMap(leaves)
    : [String(exports)]
}

test('the package holds code, networks, types and pages, but no source maps and no sources', () => {
  const ends = new Set(
    installed.files.map((path) => /(?:\.d)?\.[^./]+$/.exec(path)?.[0].replace('.d.mts', '.d.ts') ?? path),
  )
  expect([...ends].sort()).toEqual([
    ...['.cjs', '.d.ts', '.js', '.json', '.md', '.tflite', '.txt', '.wasm', 'LICENSE'],
  ])
})

test('it holds the networks that are run, and no other', () => {
  const networks = installed.files.filter((path) => path.startsWith('bundle/networks/'))
  expect(networks.map((path) => basename(path)).sort()).toEqual([
    'face_detection_full_range.tflite',
    'face_detection_short_range.tflite',
    'face_landmark.tflite',
    'litert_wasm_compat_internal.wasm',
    'selfie_segmentation.tflite',
  ])
})

test('without the picture library it takes at most 20 MB, and the picture library alone is installed with it', async () => {
  const folder = join(installed.project, 'node_modules/portrait-gate')
  const sizes = installed.files.map(async (path) => (await stat(join(folder, path))).size)
  expect((await Promise.all(sizes)).reduce((sum, size) => sum + size)).toBeLessThan(20e6)
  const about = JSON.parse(await readFile(join(folder, 'package.json'), 'utf8'))
  expect(Object.keys(about.dependencies)).toEqual(['sharp'])
  expect(about).not.toHaveProperty('scripts')
  expect(about).not.toHaveProperty('devDependencies')
})

test('the command runs', async () => {
  const { bin } = JSON.parse(await readFile('package.json', 'utf8'))
  const command = join(installed.project, 'node_modules/portrait-gate', bin['portrait-gate'])
  const { stdout } = await run(process.execPath, [command, '--version'])
  expect(stdout).toMatch(/^\d+\.\d+\.\d+\n$/)
})

test('the example of docs/api.md compiles with the types of the package, runs, and prints what it says', async () => {
  const { project } = installed
  const page = await readFile('docs/api.md', 'utf8')
  const [, example = '', , printed = ''] = /```ts\n(.*?)```(.*?)```\n(.*?)```/s.exec(page) ?? []
  const house = 'examples/osprey-lane'
  await mkdir(join(project, 'delivery/print'), { recursive: true })
  for (const file of ['brand.yaml', 'staff.csv', 'waivers.yaml'])
    await cp(join(house, file), join(project, file))
  for (const file of ['Adeyemi-Folasade_00418.jpg', 'Bergström-Åsa_01207.jpg'])
    await cp(join(house, 'delivery-faulty/print', file), join(project, 'delivery/print', file))
  await writeFile(join(project, 'package.json'), '{ "type": "module" }')
  await writeFile(join(project, 'example.ts'), example)
  await tsc(
    project,
    '--module',
    'nodenext',
    '--target',
    'es2022',
    '--strict',
    // What the package declares is compiled too: a type that it leaves out would be any.
    '--skipLibCheck',
    'false',
    '--types',
    'node',
    'example.ts',
  )
  const { stdout } = await run(process.execPath, ['example.js'], { cwd: project })
  expect(stdout).toBe(printed)
})
