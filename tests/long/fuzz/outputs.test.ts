import { execFileSync } from 'node:child_process'
import { existsSync, openSync } from 'node:fs'
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { released } from '../../package/released.ts'
import { runCommand } from './command.ts'
import { mounted } from './mounted.ts'

let release = ''
let base = ''
beforeAll(async () => {
  release = await released()
  base = await mkdtemp(join(tmpdir(), 'outputs-'))
  await writeFile(join(base, 'brand.yaml'), 'brand: Osprey Lane Veterinary Group\nversion: 1\n')
  await mkdir(join(base, 'd'))
  // A report of some hundred kilobytes: more than a pipe or a small disk takes at once.
  for (let n = 0; n < 300; n++) await writeFile(join(base, 'd', `${n}.jpg`), 'letter')
})
afterAll(async () => {
  await rm(base, { recursive: true })
})

const check = (...more: readonly string[]) => ['check', 'd', '--no-cache', ...more]

describe('a full disk', () => {
  test.skipIf(!existsSync('/dev/full'))('as standard output: a sentence and exit code 2', async () => {
    const full = openSync('/dev/full', 'w')
    const { code, stderr } = await runCommand(release, check('--format', 'json'), { cwd: base, stdout: full })
    expect(stderr).toMatch(
      /^The report could not be printed \(ENOSPC.*\)\. Free some space, or write it elsewhere\.\n$/,
    )
    expect(code).toBe(2)
  })

  test.skipIf(!existsSync('/dev/full'))(
    'as a file: a sentence and exit code 2, and the device is still one',
    async () => {
      const args = check('--format', 'json', '--output', '/dev/full')
      const { code, stdout, stderr } = await runCommand(release, args, { cwd: base })
      expect(stderr).toMatch(/^\/dev\/full could not be written \(ENOSPC/)
      expect({ code, stdout }).toEqual({ code: 2, stdout: '' })
    },
  )

  test('with an old report on it: the old one is still whole, and nothing else is there', async () => {
    const disk = join(base, 'disk')
    await mkdir(disk)
    if (!mounted(disk, '64k')) return
    try {
      await writeFile(join(disk, 'report.json'), '{"old": true}')
      const args = check('--output', 'disk/report.json')
      const { code, stdout, stderr } = await runCommand(release, args, { cwd: base })
      expect(stderr).toMatch(/^disk\/report\.json could not be written \(ENOSPC/)
      expect({ code, stdout }).toEqual({ code: 2, stdout: '' })
      expect(await readFile(join(disk, 'report.json'), 'utf8')).toBe('{"old": true}')
      expect(await readdir(disk)).toEqual(['report.json'])
    } finally {
      execFileSync('umount', [disk])
    }
  })
})

test('a reader that closes the pipe early: no complaint, and the exit code still tells', async () => {
  const early = await runCommand(release, check('--format', 'json'), { cwd: base, closesEarly: true })
  expect({ code: early.code, stderr: early.stderr }).toEqual({ code: 1, stderr: '' })
})

test('standard output that is closed from the start', async () => {
  const through = ['sh', '-c', 'exec "$@" >&-', 'sh']
  const { code, signal } = await runCommand(release, check('--format', 'json'), { cwd: base, through })
  expect(signal).toBeNull()
  expect([1, 2]).toContain(code)
})

test('a report folder that vanishes is a sentence', async () => {
  const { code, stderr } = await runCommand(release, check('--output', 'gone/report.html'), { cwd: base })
  expect(stderr).toMatch(/^gone\/report\.html could not be written \(ENOENT/)
  expect(code).toBe(2)
})
