import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { crowding } from '../../../scripts/rooms/crowding.ts'
import type { Room } from '../../../scripts/rooms/rooms.ts'

const ROOMS: readonly Room[] = ['numbers', 'judge'].map((folder) => ({ folder, business: '', not: '' }))

let root: string
beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'rooms-'))
})
afterEach(() => rm(root, { recursive: true }))

async function lint(files: Readonly<Record<string, string>>): Promise<readonly string[]> {
  for (const [path, text] of Object.entries({ 'numbers/one.ts': '', 'judge/one.ts': '', ...files })) {
    const file = join(root, 'src', path)
    await mkdir(dirname(file), { recursive: true })
    await writeFile(file, text)
  }
  return crowding(root, ROOMS)
}

const files = (count: number) =>
  Object.fromEntries(Array.from({ length: count }, (_, index) => [`numbers/n${index}.ts`, '']))

test('25 files and 220 lines are fine, files in folders below left out', async () => {
  expect(await lint({ ...files(24), 'judge/long.ts': 'x\n'.repeat(220) })).toEqual([])
})

test('one file more, one line more, a folder that is not listed', async () => {
  const problems = await lint({ ...files(25), 'judge/long.ts': 'x\n'.repeat(221), 'judge/deep/own.ts': '' })
  expect(problems).toEqual([
    expect.stringContaining('src/judge/deep has no line in src/rooms.yaml'),
    expect.stringContaining('src/numbers has 26 files; at most 25'),
    expect.stringContaining('src/judge/long.ts has 221 lines; at most 220'),
  ])
})

test('a folder that is listed and holds no code', async () => {
  await lint({})
  expect(crowding(root, [...ROOMS, { folder: 'cellar', business: '', not: '' }])).toEqual([
    expect.stringContaining('lists cellar, which holds no code'),
  ])
})
