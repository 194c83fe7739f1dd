import { mkdtemp, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { check } from '../../src/commands/check.ts'
import { run } from '../../src/commands/run.ts'
import { picture, SPEC } from '../action/runner/deliveries.ts'
import { recordingHost } from './host.ts'

let folder: string

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'only '))
  const own = SPEC.replace(/^(?:roster|waivers):.*\n/gm, '')
  await writeFile(join(folder, 'brand.yaml'), own)
  for (const name of ['Adeyemi-Folasade', 'Farouk-Layla'])
    await writeFile(join(folder, `${name}.jpg`), await picture())
  await writeFile(join(folder, 'Grieve-Morag.jpg'), await picture(60, 75))
})

async function checkOnly(list: string) {
  await writeFile(join(folder, 'list'), list)
  const { host, stdout, stderr } = recordingHost(folder)
  const exit = await check(['--only', 'list', '--format', 'json', '.'], host)
  return { exit, report: JSON.parse(stdout()), stderr: stderr() }
}

test.each([
  ['lines', 'Farouk-Layla.jpg\nAdeyemi-Folasade.jpg\n'],
  ['lines of Windows', 'Farouk-Layla.jpg\r\nAdeyemi-Folasade.jpg'],
  ['zero bytes', 'Farouk-Layla.jpg\0Adeyemi-Folasade.jpg\0'],
])('a list in %s: the faulty portrait that it does not name is left out', async (_, list) => {
  const { exit, report, stderr } = await checkOnly(list)
  expect(exit).toBe(0)
  expect(report).toMatchObject({ verdict: 'pass', totals: { files: 2, pass: 2 } })
  expect(stderr).toContain('Judged one by one: 2 of 3 portraits.')
})

test('what it names is judged in full', async () => {
  expect(await checkOnly('Grieve-Morag.jpg\n')).toMatchObject({ exit: 1, report: { totals: { fail: 1 } } })
})

test.each([
  ['a list that is not there', ['--only', 'nowhere'], 'The --only list nowhere could not be read (ENOENT)'],
  ['a part of a list', ['--only', 'list', '--shard', '1/2'], '--shard and --only cannot be combined'],
])('%s: exit code 2 and a sentence', async (_, args, sentence) => {
  const { host, stderr } = recordingHost(folder)
  expect(await run(['check', ...args], host)).toBe(2)
  expect(stderr()).toContain(sentence)
})
