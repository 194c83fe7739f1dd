import { execFile } from 'node:child_process'
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join, resolve } from 'node:path'
import { promisify } from 'node:util'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { MEASURING } from '../../../src/cache/measuring-code.ts'

test('measuring is made of the folders whose code the cache goes by', async () => {
  const config = await readFile('.dependency-cruiser.mjs', 'utf8')
  expect(config).toContain(`const MEASURING = '^src/(${MEASURING.join('|')})/'\n`)
})

/** From high to low. */
const ROOMS = `
- { folder: judge, business: "", not: "" }
- { folder: measure, business: "", not: "" }
- { folder: people, business: "", not: "" }
- { folder: numbers, business: "", not: "" }
`
const SOUND = {
  'numbers/sum.ts': 'export const sum = (a: number, b: number) => a + b\nexport type Sum = number\n',
  'judge/judge.ts':
    "import { type Sum, sum } from '../numbers/sum.ts'\nexport const judge = (): Sum => sum(1, 2)\n",
}

let root: string
beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'rooms-'))
})
afterEach(() => rm(root, { recursive: true }))

/** What the lint of imports says of a source tree; its exit code is 0 when it is content. */
async function lint(files: Readonly<Record<string, string>>): Promise<{ code: number; said: string }> {
  for (const [path, text] of Object.entries({ 'rooms.yaml': ROOMS, ...SOUND, ...files })) {
    const file = join(root, 'src', path)
    await mkdir(dirname(file), { recursive: true })
    await writeFile(file, text)
  }
  const cruiser = resolve('node_modules/dependency-cruiser/bin/dependency-cruise.mjs')
  const run = promisify(execFile)(
    process.execPath,
    [cruiser, '--config', resolve('.dependency-cruiser.mjs'), 'src'],
    { cwd: root },
  )
  return run.then(
    ({ stdout }) => ({ code: 0, said: stdout }),
    ({ code, stdout, stderr }) => ({ code, said: stdout + stderr }),
  )
}

test('imports that point downwards are fine', async () => {
  expect(await lint({})).toMatchObject({ code: 0 })
})

test('each import that points elsewhere is an error', async () => {
  const { code, said } = await lint({
    // Code, a type, and a type that is handed on.
    'numbers/up.ts': "import { judge } from '../judge/judge.ts'\nexport const up = judge()\n",
    'numbers/type.ts': "import type { judge } from '../judge/judge.ts'\nexport type Up = typeof judge\n",
    'numbers/on.ts': "export type { judge } from '../judge/judge.ts'\n",
    // A circle of types within a folder.
    'people/a.ts': "import type { B } from './b.ts'\nexport interface A { readonly b: B }\n",
    'people/b.ts': "import type { A } from './a.ts'\nexport interface B { readonly a: A }\n",
    // What the cache does not know of.
    'measure/face.ts': "import type { A } from '../people/a.ts'\nexport type Face = A\n",
    'cellar/wine.ts': "import { sum } from '../numbers/sum.ts'\nexport const wine = sum(1, 1)\n",
    'judge/lost.ts': "import { gone } from './gone.ts'\nexport const lost = gone\n",
  })
  const up = 'numbers imports from lower folders only: src/numbers'
  for (const error of [
    `${up}/up.ts → src/judge/judge.ts`,
    `${up}/type.ts → src/judge/judge.ts`,
    `${up}/on.ts → src/judge/judge.ts`,
    'no cycles: src/people/a.ts → src/people/b.ts → src/people/a.ts',
    'measuring is made of measuring code only: src/measure/face.ts → src/people/a.ts',
    'every folder has its line in src/rooms.yaml: src/cellar/wine.ts → src/numbers/sum.ts',
    'imports lead somewhere: src/judge/lost.ts → ./gone.ts',
  ])
    expect(said.replace(/\s+/g, ' ')).toContain(error)
  expect(code, said).toBe(10)
})
