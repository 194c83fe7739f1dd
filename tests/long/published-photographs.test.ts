import { mkdir, mkdtemp, readFile, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp from 'sharp'
import { expect, test } from 'vitest'
import { run } from '../../src/commands/run.ts'
import type { PublishedReport } from '../../src/published/finding.ts'
import { recordingHost } from '../commands/host.ts'
import { PORTRAIT_MARKS } from '../outside/portrait-marks.ts'
import { packageFolder } from '../outside/portraits.ts'

/*
 * The same way with photographs that npm packages carry, under made-up numbers: sealed, received, shown smaller; then two are
 * swapped, one is missing. Nobody is recognized: pictures are told apart, not people.
 */
const COUNT = 16

test('photographs: all are known again, and what was planted is told and nothing else', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'photographs-'))
  const command = async (...args: readonly string[]) => {
    const { host, stdout, stderr } = recordingHost(folder)
    const exit = await run([args[0] ?? '', '--cache', 'measured', ...args.slice(1)], host)
    return { exit, stdout: stdout(), stderr: stderr() }
  }
  const told = async (site: string) => {
    const { stdout } = await command('published', site, '--approved', 'kept', '--format', 'json')
    const report: PublishedReport = JSON.parse(stdout)
    return report.findings.map(({ kind, person }) => `${kind} ${person}`).sort()
  }
  const whole = PORTRAIT_MARKS.filter(({ crop }) => crop === undefined).slice(0, COUNT)
  const originals = await Promise.all(
    whole.map(async ({ source, path }) => readFile(join(await packageFolder(source), path))),
  )
  const number = (i: number) => String(100 + i)
  for (const name of ['delivery', 'site', 'bad']) await mkdir(join(folder, name))
  await writeFile(
    join(folder, 'brand.yaml'),
    'brand: Osprey Lane Veterinary Group\nversion: 1\nnaming: { pattern: "{staff-id}.jpg" }\none-face: false\n',
  )
  await writeFile(join(folder, 'staff.csv'), ['staff-id', ...originals.map((_, i) => number(i))].join('\n'))
  for (const [i, bytes] of originals.entries()) {
    const file = `${number(i)}.jpg`
    await writeFile(join(folder, 'delivery', file), await sharp(bytes).jpeg({ quality: 95 }).toBuffer())
    const small = await sharp(bytes).resize(300).jpeg({ quality: 70 }).toBuffer()
    await writeFile(join(folder, 'site', file), small)
    if (i !== 3) await writeFile(join(folder, 'bad', i === 0 ? '101.jpg' : i === 1 ? '100.jpg' : file), small)
  }
  const roster = ['--roster', 'staff.csv'] as const
  const sealed = await command(
    'seal',
    'delivery',
    '--with-findings',
    '--output',
    'photographs.zip',
    ...roster,
  )
  expect(sealed.stderr).toBe('')
  const received = await command('receive', 'photographs.zip', '--output', 'kept')
  expect(received.stdout).toContain('photographs.zip is whole and unchanged')
  expect(await told('site')).toEqual([])
  const { stdout } = await command('published', 'bad', '--approved', 'kept', '--format', 'json', ...roster)
  const report: PublishedReport = JSON.parse(stdout)
  expect(report.findings.map(({ kind, person }) => `${kind} ${person}`).sort()).toEqual([
    'missing 103',
    'swapped 100',
    'swapped 101',
  ])
})
