import { mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { schemaText } from '../../src/brand-spec/schema.ts'
import { STARTER_SPEC } from '../../src/brand-spec/starter.ts'
import { run } from '../../src/commands/run.ts'
import { ALL_RULES } from '../../src/rules/delivery-index.ts'
import { recordingHost } from './host.ts'

let base = ''

beforeEach(async () => {
  base = await mkdtemp(join(tmpdir(), 'init-'))
})
afterEach(() => rm(base, { recursive: true, force: true }))

async function init(...args: string[]) {
  const { host, stdout, stderr } = recordingHost(base)
  return { code: await run(['init', ...args], host), stdout: stdout(), stderr: stderr() }
}

const read = (file: string) => readFile(join(base, file), 'utf8')

test('writes the spec and its schema, and says what to do next', async () => {
  expect(await init()).toEqual({
    code: 0,
    stdout: [
      'brand.yaml is a brand spec to start from: read it and adapt it to what you have agreed on.',
      'brand-spec.schema.json lets editors complete and explain the spec; keep the two together.',
      'Then check a delivery: portrait-gate check FOLDER',
      '',
    ].join('\n'),
    stderr: '',
  })
  expect(await read('brand.yaml')).toBe(STARTER_SPEC)
  expect(await read('brand-spec.schema.json')).toBe(schemaText(ALL_RULES))
  expect(await readdir(base)).toHaveLength(2)
})

test('makes the folder, and names the spec there', async () => {
  const { code, stdout } = await init('clients/osprey')
  expect(code).toBe(0)
  expect(stdout).toContain('portrait-gate check --spec clients/osprey/brand.yaml FOLDER')
  expect(await readdir(join(base, 'clients/osprey'))).toEqual(['brand-spec.schema.json', 'brand.yaml'])
})

describe('what is there', () => {
  test.each([
    [['brand.yaml'], 'brand.yaml already exists'],
    [['brand-spec.schema.json'], 'brand-spec.schema.json already exists'],
    [['brand.yaml', 'brand-spec.schema.json'], 'brand.yaml and brand-spec.schema.json already exist'],
  ])('%j is kept, and nothing is written', async (files, words) => {
    for (const file of files) await writeFile(join(base, file), 'mine')
    expect(await init()).toEqual({
      code: 2,
      stdout: '',
      stderr: `${words}; nothing was written. Name another folder, or overwrite with --force.\n`,
    })
    for (const file of files) expect(await read(file)).toBe('mine')
    expect(await readdir(base)).toHaveLength(files.length)
  })

  test('is overwritten with --force', async () => {
    await writeFile(join(base, 'brand.yaml'), 'mine')
    expect((await init('--force')).code).toBe(0)
    expect(await read('brand.yaml')).toBe(STARTER_SPEC)
    expect(await readdir(base)).toHaveLength(2)
  })

  test('does not matter when it is the same', async () => {
    await init()
    expect((await init()).code).toBe(0)
    await rm(join(base, 'brand.yaml'))
    expect((await init()).code).toBe(0)
    expect(await read('brand.yaml')).toBe(STARTER_SPEC)
  })

  test('as a link to nowhere is not written through', async () => {
    await symlink('elsewhere', join(base, 'brand.yaml'))
    const { code, stderr } = await init()
    expect(code).toBe(2)
    expect(stderr).toBe(
      'brand.yaml could not be written (EEXIST). Something has that name already: move it away, or name another place.\n',
    )
    expect(await readdir(base)).toEqual(['brand.yaml'])
  })

  test('as a folder is told', async () => {
    await mkdir(join(base, 'brand.yaml'))
    expect(await init()).toMatchObject({
      code: 2,
      stderr: expect.stringContaining('brand.yaml already exists'),
    })
    expect(await init('--force')).toMatchObject({
      code: 2,
      stderr: expect.stringContaining('could not be written'),
    })
    expect(await readdir(base)).toEqual(['brand.yaml'])
  })

  test('as a file where the folder should be is told', async () => {
    await writeFile(join(base, 'clients'), '')
    expect(await init('clients')).toMatchObject({ code: 2, stderr: expect.stringContaining('brand.yaml') })
  })
})

test.each([
  [['a', 'b'], 'init takes one folder; run it once for each.\n'],
  [['--forse'], "error: unknown option '--forse'"],
])('%j is answered by a sentence and code 2', async (args, sentence) => {
  const { code, stderr } = await init(...args)
  expect(code).toBe(2)
  expect(stderr).toContain(sentence)
  expect(await readdir(base)).toEqual([])
})
