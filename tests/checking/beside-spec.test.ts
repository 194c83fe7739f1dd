import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { run } from '../../src/commands/run.ts'
import { recordingHost } from '../commands/host.ts'

const GOOD = 'examples/osprey-lane/delivery-clean/web/Nair-Priya_15388.jpg'
const HEAD = `brand: Osprey Lane Veterinary Group
version: 1
naming: { pattern: "{family}-{given}_{staff-id}.jpg" }
`
const STAFF = 'family,given,staff-id\nNair,Priya,15388\n'

let folder = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'beside-spec-'))
  await mkdir(join(folder, 'brand', 'lists'), { recursive: true })
  await writeFile(join(folder, 'outside.csv'), STAFF)
  await writeFile(join(folder, 'brand', 'lists', 'staff.csv'), STAFF)
  await symlink(join('..', 'outside.csv'), join(folder, 'brand', 'link.csv'))
})
afterAll(() => rm(folder, { recursive: true }))

async function check(spec: string, ...more: readonly string[]) {
  await writeFile(join(folder, 'brand', 'brand.yaml'), HEAD + spec)
  const { host, stdout, stderr } = recordingHost(folder)
  const good = join(process.cwd(), GOOD)
  const code = await run(['check', good, '--spec', 'brand/brand.yaml', ...more], host)
  return { code, stdout: stdout(), stderr: stderr() }
}

test('a roster below the spec is found from the folder of the spec', async () => {
  const { code, stdout, stderr } = await check('roster: lists/staff.csv\n')
  expect(stderr).toBe('')
  expect(stdout).toMatch(/The delivery as a\s+whole: no problems\./)
  expect(code).toBe(0)
})

test.each([
  ['up', '../outside.csv'],
  ['up by a detour', 'lists/../../outside.csv'],
  ['absolute', '/etc/passwd'],
  ['by a link', 'link.csv'],
  ['with backslashes', '..\\outside.csv'],
])('a spec can not lead out of its folder: %s', async (_, path) => {
  for (const key of ['roster', 'waivers']) {
    const { code, stderr } = await check(`${key}: '${path}'\n`)
    expect(stderr).toContain("which leads out of the spec's folder")
    expect(code).toBe(2)
  }
})

test('the command line can name any file, and wins', async () => {
  const { code, stdout } = await check('roster: lists/none.csv\n', '--roster', 'outside.csv')
  expect(stdout).toContain('no problems')
  expect(code).toBe(0)
})

test('what is wrong with a roster is told with its lines, and nothing is judged', async () => {
  await writeFile(join(folder, 'brand', 'bad.csv'), 'family,given,staff-id\nNair,Priya\n\u001b[31m,,"\n')
  const { code, stdout, stderr } = await check('roster: bad.csv\n')
  expect(code).toBe(2)
  expect(stdout).toBe('')
  expect(stderr).toMatch(/^brand\/bad.csv:\d+: /)
  expect(stderr).not.toContain('\u001b')
  expect(stderr).toContain('Nothing was judged: brand/bad.csv has a problem.')
})

test('a roster that is not there, and a workbook', async () => {
  expect((await check('roster: lists/none.csv\n')).stderr).toContain(
    'The roster file brand/lists/none.csv is not there. Check its path.',
  )
  await writeFile(join(folder, 'brand', 'staff.xlsx'), Buffer.from('PK\x03\x04'))
  expect((await check('roster: staff.xlsx\n')).stderr).toContain('is a workbook (.xlsx, .xls or .ods)')
})

test('problems in the waivers file are reported with line and column', async () => {
  await writeFile(join(folder, 'waivers.yaml'), '- rule: intact\n  file: a.jpg\n')
  const { code, stderr } = await check('', '--waivers', 'waivers.yaml')
  expect(code).toBe(2)
  expect(stderr).toContain('waivers.yaml:1:9: No exception covers intact')
  expect(stderr).toContain('has 4 problems')
})
