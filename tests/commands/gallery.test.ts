import { cp, mkdir, mkdtemp, readFile, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { run } from '../../src/commands/run.ts'
import { recordingHost } from './host.ts'

const CLEAN = resolve('examples/osprey-lane/delivery-clean/web')
const [ADEYEMI, LUND, NAIR] = ['Adeyemi-Folasade_00418', 'Lund-Bjørn_00990', 'Nair-Priya_15388']

let folder: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'gallery-'))
  await writeFile(
    join(folder, 'brand.yaml'),
    'brand: Osprey Lane Veterinary Group\nversion: 1\nnaming: { pattern: "{deliverable}/{family}-{given}_{staff-id}.jpg" }\ndeliverables: { web: {} }\n',
  )
  const put = async (set: string, names: readonly (string | undefined)[]) => {
    await mkdir(join(folder, set, 'web'), { recursive: true })
    for (const name of names) await cp(join(CLEAN, `${name}.jpg`), join(folder, set, 'web', `${name}.jpg`))
  }
  await put('before', [ADEYEMI, LUND])
  await put('joiners', [NAIR])
  await put('leavers', [LUND])
  await put('after', [ADEYEMI, NAIR])
})

async function gallery(...args: readonly string[]) {
  const { host, stderr } = recordingHost(folder)
  const exit = await run(['gallery', '--cache', 'kept', ...args], host)
  return { exit, stderr: stderr() }
}
const text = (name: string) => readFile(join(folder, name), 'utf8')

test('joiners are added and leavers removed: the file is that of the set as it is', async () => {
  await gallery('before', '--output', 'gallery.json')
  expect(await gallery('joiners', '--add', 'gallery.json')).toEqual({ exit: 0, stderr: '' })
  expect(await gallery('leavers', '--remove', 'gallery.json')).toEqual({ exit: 0, stderr: '' })
  await gallery('after', '--output', 'wanted.json')
  expect(await text('gallery.json')).toBe(await text('wanted.json'))
  expect(await text('gallery.json')).not.toMatch(/Lund|Nair|Adeyemi/)
})

test('what is not in the file is told, and the rest stays', async () => {
  await gallery('after', '--output', 'gallery.json')
  const { exit, stderr } = await gallery('leavers', '--remove', 'gallery.json', '--output', 'other.json')
  expect(exit).toBe(1)
  expect(stderr).toBe(
    `web/Lund-Bjørn_00990.jpg is not in gallery.json, at least not with these numbers; nothing was removed for it.\n`,
  )
  expect(await text('other.json')).toBe(await text('gallery.json'))
})

test('a file that is no gallery stays as it is', async () => {
  await writeFile(join(folder, 'notes.json'), '{}')
  const { exit, stderr } = await gallery('joiners', '--add', 'notes.json')
  expect([exit, stderr]).toEqual([2, expect.stringContaining('notes.json: This is not a gallery file.')])
  expect(await text('notes.json')).toBe('{}')
})
