import { execFile } from 'node:child_process'
import { mkdtemp, readFile, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join, relative, resolve } from 'node:path'
import { promisify } from 'node:util'
import { beforeAll, expect, test } from 'vitest'
import { compiledCode } from '../../scripts/package/compiled.ts'
import { writeInto } from '../../scripts/package/write.ts'
import { MODULE } from '../../src/kernels/module.ts'
import { packed } from './packed.ts'

const run = promisify(execFile)
let project: string
let bundle: string
let compiled: ReadonlyMap<string, Uint8Array>
beforeAll(async () => {
  const installed = await packed(await mkdtemp(join(tmpdir(), 'compiled-')))
  project = installed.project
  const own = join(project, 'node_modules/portrait-gate')
  bundle = join(own, 'bundle')
  const files = installed.files.filter((path) => path.startsWith('bundle/'))
  const contents = files.map(
    async (path) => [relative('bundle', path), await readFile(join(own, path))] as const,
  )
  compiled = await compiledCode(new Map(await Promise.all(contents)))
  await writeInto(bundle, compiled)
})

/** Tells what V8 made of the code that it compiled before, in each thread. */
const TELL_COMPILED = `
const loader = require(process.env.LOADER)
const { takeCompiled, scripts } = loader
loader.takeCompiled = (role) => {
  takeCompiled(role)
  const rejected = [...scripts.values()].filter((script) => script.cachedDataRejected !== false)
  require('node:fs').writeSync(2, \`\${role}: \${scripts.size > 20} \${rejected.length}\\n\`)
}`

test('V8 takes the code that it compiled before, in the main thread and in workers, and none by other flags', async () => {
  await writeFile(join(project, 'tell.cjs'), TELL_COMPILED)
  const check = async (...flags: readonly string[]) => {
    const { stdout, stderr } = await run(
      process.execPath,
      [
        ...[
          ...flags,
          '--require',
          './tell.cjs',
          join(bundle, 'start.cjs'),
          'check',
          '--no-cache',
          '--partial',
        ],
        ...['--spec', resolve('examples/osprey-lane/brand.yaml')],
        ...['Nair-Priya_15388.jpg', 'Haile-Tewodros_12450.jpg', 'Ikeda-Naoki_13377.jpg'].map((name) =>
          resolve('examples/osprey-lane/delivery-clean/web', name),
        ),
      ],
      { cwd: project, env: { ...process.env, LOADER: join(bundle, 'load.cjs') } },
    )
    expect(stdout).toContain('3 portraits')
    return stderr.split('\n').filter((line) => /^(?:main|worker): /.test(line))
  }
  expect(new Set(await check())).toEqual(new Set(['main: true 0', 'worker: true 0']))
  // V8 compares its flags; what it doesn't take is compiled as usual.
  expect(await check('--no-lazy-feedback-allocation')).toContain('main: false 1')
})

test('what V8 compiled names no folder of the machine that made the package', async () => {
  expect(compiled.size).toBe(2)
  for (const content of compiled.values()) {
    const text = Buffer.from(content).toString('latin1')
    expect(text).toContain('portrait-gate/code/')
    expect(text).not.toContain(process.cwd())
  }
})

test('what modules do when they are loaded is compiled, too', () => {
  // A text that stands in no function: the code of the kernels' module holds it only if all of the module was kept.
  const start = MODULE.slice(0, 100)
  for (const content of compiled.values()) expect(Buffer.from(content).includes(start)).toBe(true)
})
