import { mkdir, mkdtemp, realpath, rm, symlink, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { fromDisk, readExtended } from '../../src/checking/extended-specs.ts'
import { run } from '../../src/commands/run.ts'
import { loadSpec, SpecError } from '../../src/index.ts'
import { recordingHost } from '../commands/host.ts'

const HEAD = 'brand: Osprey Lane Veterinary Group\nversion: 1\n'
const GOOD = join(process.cwd(), 'examples/osprey-lane/delivery-clean/web/Nair-Priya_15388.jpg')

let folder = ''
beforeAll(async () => {
  folder = await realpath(await mkdtemp(join(tmpdir(), 'extended-')))
})
afterAll(() => rm(folder, { recursive: true }))

async function write(files: Readonly<Record<string, string>>): Promise<void> {
  for (const [file, text] of Object.entries(files)) {
    await mkdir(dirname(join(folder, file)), { recursive: true })
    await writeFile(join(folder, file), text)
  }
}

const chainOf = (file: string, text: string, within: string | null = null) =>
  readExtended({ file, text: HEAD + text }, fromDisk(folder, within))

describe('the specs that one extends', () => {
  test('are read from the folder of the one that names them', async () => {
    await write({
      'group.yaml': `${HEAD}extends: firm/house.yaml\n`,
      'firm/house.yaml': `${HEAD}tilt: { max: 2 }\n`,
    })
    const { extended, problems } = await chainOf('harbor/brand.yaml', 'extends: ../group.yaml\n')
    expect(problems).toEqual([])
    expect(extended.map(({ file }) => file)).toEqual(['group.yaml', join('firm', 'house.yaml')])
  })

  test.each([
    ['not there', '../none.yaml', 'the file none.yaml is not there. Check its path.'],
    ['absolute', '/etc/house.yaml', 'should be a path from the folder of this file'],
    ['with backslashes', '..\\group.yaml', 'should be a path from the folder of this file'],
    ['an address', 'https://example.invalid/group.yaml', 'should be a path from the folder of this file'],
    ['no YAML by its name', '../../../etc/passwd', 'a spec ends in .yaml or .yml'],
  ])('%s: told at the line that names it', async (_, path, words) => {
    const { problems } = await chainOf('harbor/brand.yaml', `extends: '${path}'\n`)
    expect(problems).toEqual([
      { file: 'harbor/brand.yaml', line: 3, column: 10, message: expect.stringContaining(words) },
    ])
  })

  test('in a circle: told where it closes', async () => {
    await write({
      'a.yaml': `${HEAD}extends: b.yaml\n`,
      'b.yaml': `${HEAD}\nextends: ./a.yaml\n`,
    })
    const { problems } = await chainOf('a.yaml', 'extends: b.yaml\n')
    expect(problems).toEqual([
      expect.objectContaining({
        ...{ file: 'b.yaml', line: 4 },
        message: expect.stringContaining('in a circle (a.yaml, then b.yaml, then a.yaml)'),
      }),
    ])
    expect((await chainOf('c.yaml', 'extends: c.yaml\n')).problems[0]?.message).toContain('in a circle')
  })

  test('in a circle by a link end at the limit', async () => {
    await mkdir(join(folder, 'loop'))
    await symlink('.', join(folder, 'loop', 'again'))
    await write({ 'loop/a.yaml': `${HEAD}extends: again/a.yaml\n` })
    const { problems } = await chainOf('loop/a.yaml', 'extends: again/a.yaml\n')
    expect(problems[0]?.message).toContain('more than 8 specs extend one another')
  })

  test('within a folder do not leave it, by name or by a link', async () => {
    await mkdir(join(folder, 'tree'))
    await write({ 'outside.yaml': HEAD, 'tree/inside.yaml': HEAD })
    await symlink('../outside.yaml', join(folder, 'tree', 'link.yaml'))
    const tree = join(folder, 'tree')
    const told = async (path: string) =>
      (await chainOf('tree/brand.yaml', `extends: ${path}\n`, tree)).problems
    expect(await told('inside.yaml')).toEqual([])
    for (const path of ['../outside.yaml', 'link.yaml', '../tree/../outside.yaml'])
      expect((await told(path))[0]?.message).toContain('leads out of the workspace')
  })
})

describe('a delivery judged by the spec of an office', () => {
  const GROUP = `${HEAD}naming: { pattern: "{family}-{given}_{staff-id}.jpg" }
roster: staff.csv
pixel-size: { width: 10, height: 10 }
`
  const OWN = 'brand: Osprey Lane, Harbor Street\nversion: 4\nextends: ../../group.yaml\n'
  async function check(own: string, group = GROUP, ...more: readonly string[]) {
    await write({
      'firm/group.yaml': group,
      'firm/staff.csv': 'family,given,staff-id\nNair,Priya,15388\n',
      'firm/offices/harbor/brand.yaml': own,
    })
    const { host, stdout, stderr } = recordingHost(folder)
    const spec = 'firm/offices/harbor/brand.yaml'
    const code = await run(['check', GOOD, '--spec', spec, ...more], host)
    return { code, stdout: stdout(), stderr: stderr() }
  }

  test('is judged by the rules and the roster of the group, and by its own', async () => {
    const by = await check(OWN)
    expect(by.stderr).toBe('')
    expect(by).toMatchObject({ code: 1, stdout: expect.stringContaining('of 10 px and a height of 10 px.') })
    expect(by.stdout).toContain('Who has what: 0 of 1 person complete')
    expect(by.stdout.replace(/\s+/g, ' ')).toContain(
      'Osprey Lane, Harbor Street, brand spec version 4 (firm/offices/harbor/brand.yaml), which extends version 1 of firm/group.yaml',
    )
    expect(await check(`${OWN}pixel-size: false\n`)).toMatchObject({ code: 0 })
    const { stdout } = await check(OWN, GROUP, '--format', 'json')
    expect(JSON.parse(stdout).spec.extends).toEqual([{ file: 'firm/group.yaml', version: 1 }])
  })

  test('in parts carries all that it was judged by', async () => {
    const { stdout, stderr } = await check(OWN, GROUP, '--shard', '1/1', '--format', 'json')
    expect(stderr).toBe('')
    await writeFile(join(folder, 'part.json'), stdout)
    await rm(join(folder, 'firm'), { recursive: true })
    const { host, stdout: merged } = recordingHost(folder)
    expect(await run(['merge', 'part.json'], host)).toBe(1)
    expect(merged().replace(/\s+/g, ' ')).toContain('which extends version 1 of firm/group.yaml')
    const { stdout: whole } = await check(OWN, GROUP)
    expect(merged()).toBe(whole)
  })

  test('problems of the spec of the group are told with its file, and nothing is judged', async () => {
    const { code, stderr } = await check(OWN, `${GROUP}tilt: { mx: 2 }\n`)
    expect(code).toBe(2)
    expect(stderr).toMatch(/^firm\/group\.yaml:6:9: .*mx/)
    expect(stderr).toContain('Nothing was judged: the spec has a problem.')
  })

  test('the same for programs', async () => {
    await check(OWN)
    const spec = await loadSpec('firm/offices/harbor/brand.yaml', { cwd: folder })
    expect(spec).toMatchObject({ version: 4, settings: { 'pixel-size': { width: 10 } } })
    await check(OWN, `${GROUP}tilt: { mx: 2 }\n`)
    const error = await loadSpec('firm/offices/harbor/brand.yaml', { cwd: folder }).catch((one) => one)
    expect(error).toBeInstanceOf(SpecError)
    expect(error.message).toMatch(/^firm\/group\.yaml:6:9: /)
    await check(OWN.replace('group.yaml', 'none.yaml'))
    const missing = loadSpec('firm/offices/harbor/brand.yaml', { cwd: folder })
    await expect(missing).rejects.toThrow(/^firm\/offices\/harbor\/brand\.yaml:3:10: extends is .*none\.yaml/)
  })
})
