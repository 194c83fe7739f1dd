import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { schemaText } from '../../src/brand-spec/schema.ts'
import { run } from '../../src/commands/run.ts'
import { ALL_RULES } from '../../src/rules/delivery-index.ts'
import { picture } from '../action/runner/deliveries.ts'
import { recordingHost } from './host.ts'

const SCHEMA = 'brand-spec.schema.json'
const IDS = { 'Adeyemi-Folasade': '00418', 'Farouk-Layla': '01207', 'Grieve-Morag': '10233' }

let base = ''

beforeEach(async () => {
  base = await mkdtemp(join(tmpdir(), 'derive '))
  await mkdir(join(base, 'approved'))
  for (const [name, id] of Object.entries(IDS))
    await writeFile(join(base, 'approved', `${name}_${id}.jpg`), await picture())
  const rows = Object.entries(IDS).map(([name, id]) => `${name.replace('-', ',')},${id}\n`)
  await writeFile(join(base, 'staff.csv'), `family,given,staff-id\n${rows.join('')}`)
})
afterEach(() => rm(base, { recursive: true, force: true }))

async function derive(...args: string[]) {
  const { host, stdout, stderr } = recordingHost(base)
  return {
    code: await run(['derive', 'approved', '--no-cache', ...args], host),
    stdout: stdout(),
    stderr: stderr(),
  }
}

const read = (file: string) => readFile(join(base, file), 'utf8')

test('a spec that is printed names no schema; one that is written has it beside it', async () => {
  const printed = await derive()
  expect(printed.code).toBe(0)
  expect(printed.stdout).toContain('{family}-{given}_{staff-id}.jpg')
  expect(printed.stdout).not.toContain('$schema')
  expect((await derive('--output', 'client/brand.yaml')).code).toBe(0)
  expect(await read('client/brand.yaml')).toBe(
    `# yaml-language-server: $schema=./${SCHEMA}\n#\n${printed.stdout}`,
  )
  expect(await read(`client/${SCHEMA}`)).toBe(schemaText(ALL_RULES))
})

test.each([
  [['brand.yaml'], 'brand.yaml already exists'],
  [['brand.yaml', SCHEMA], `brand.yaml and ${SCHEMA} already exist`],
])('%j is kept, unless with --force', async (files, words) => {
  for (const file of files) await writeFile(join(base, file), 'mine')
  const before = await readdir(base)
  expect(await derive('--output', 'brand.yaml')).toEqual({
    code: 2,
    stdout: '',
    stderr: `${words}; nothing was written. Name another folder, or overwrite with --force.\n`,
  })
  for (const file of files) expect(await read(file)).toBe('mine')
  expect(await readdir(base)).toEqual(before)
  expect((await derive('--output', 'brand.yaml', '--force')).code).toBe(0)
  expect(await read('brand.yaml')).toContain('version: 1')
  expect(await read(SCHEMA)).toBe(schemaText(ALL_RULES))
})

test('the roster is named from the folder of the spec, and check reads it there', async () => {
  expect((await derive('--roster', 'staff.csv')).stdout).toContain('\nroster: "staff.csv"\n')
  await mkdir(join(base, 'client/lists'), { recursive: true })
  await writeFile(join(base, 'client/lists/staff.csv'), await read('staff.csv'))
  await derive('--roster', 'client/lists/staff.csv', '--output', 'client/brand.yaml')
  expect(await read('client/brand.yaml')).toContain('\nroster: "lists/staff.csv"\n')
  await rm(join(base, 'approved/Grieve-Morag_10233.jpg'))
  const { host, stdout } = recordingHost(base)
  expect(await run(['check', 'approved', '--no-cache', '--spec', 'client/brand.yaml'], host)).toBe(1)
  expect(stdout()).toMatch(/Grieve.*missing|missing.*Grieve/s)
})

test('a roster outside the folder of the spec is not named, and the spec says so', async () => {
  await derive('--roster', 'staff.csv', '--output', 'client/brand.yaml')
  expect(await read('client/brand.yaml')).toContain('# roster was left out: the list lies outside the folder')
  expect(await read('client/brand.yaml')).not.toContain('\nroster:')
})
