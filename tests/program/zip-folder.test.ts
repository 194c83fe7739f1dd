import { execFileSync } from 'node:child_process'
import { mkdir, mkdtemp, readFile, rm, stat, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { zipFolder } from '../../scripts/program/zip-folder.ts'
import { debianTool } from '../outside/debian.ts'

let base: string
beforeEach(async () => {
  base = await mkdtemp(join(tmpdir(), 'zip '))
})
afterEach(() => rm(base, { recursive: true, force: true }))

test('another program unpacks the folder as it was, and what may be run still may; the bytes are the same again', async () => {
  const folder = join(base, 'a program')
  await mkdir(join(folder, 'inside'), { recursive: true })
  await writeFile(join(folder, 'start'), '#!/bin/sh\n', { mode: 0o755 })
  await writeFile(join(folder, 'inside', 'Bjørn.txt'), 'text', { mode: 0o644 })
  const [first, second] = [join(base, 'first.zip'), join(base, 'second.zip')]
  await zipFolder(folder, first)
  await zipFolder(folder, second)
  expect(await readFile(second)).toEqual(await readFile(first))
  const unzip = debianTool('unzip', 'unzip')
  if (!unzip) return
  const other = join(base, 'other')
  execFileSync(unzip, ['-q', first, '-d', other])
  const mode = async (...path: string[]) => (await stat(join(other, 'a program', ...path))).mode & 0o777
  expect(await mode('start')).toBe(0o755)
  expect(await mode('inside', 'Bjørn.txt')).toBe(0o644)
  expect(await readFile(join(other, 'a program', 'inside', 'Bjørn.txt'), 'utf8')).toBe('text')
})
