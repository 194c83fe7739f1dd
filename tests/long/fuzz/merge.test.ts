import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { run } from '../../../src/commands/run.ts'
import { recordingHost } from '../../commands/host.ts'
import { seeded } from '../../random.ts'
import { spoiledJson } from './spoiled-json.ts'

let folder = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'spoiled-parts-'))
  const spec =
    'brand: Osprey Lane Veterinary Group\nversion: 1\nnaming: { pattern: "{family}-{given}.jpg" }\n'
  await writeFile(join(folder, 'brand.yaml'), `${spec}roster: staff.csv\n`)
  await writeFile(join(folder, 'staff.csv'), 'family,given\nLund,Ada\nPham,Linh\n')
  await mkdir(join(folder, 'd'))
  for (const name of ['Lund-Ada', 'Pham-Linh', 'x'])
    await writeFile(join(folder, 'd', `${name}.jpg`), 'letter')
})
afterAll(() => rm(folder, { recursive: true }))

async function command(...argv: readonly string[]) {
  const { host, stdout, stderr } = recordingHost(folder)
  const code = await run(argv, host)
  return { code, stdout: stdout(), stderr: stderr() }
}

test('a part that was spoiled in 80 ways is merged or refused in a sentence, never an exception', async () => {
  const { stdout } = await command('check', 'd', '--shard', '1/1', '--no-cache', '--format', 'json')
  const part: unknown = JSON.parse(stdout)
  expect((await merged(part)).code).toBe(1)
  const random = seeded(80)
  let refused = 0
  for (let n = 0; n < 80; n++) {
    const { code, stderr, stdout: report } = await merged(spoiledJson(part, random))
    if (code !== 2) continue
    refused++
    expect(report).toBe('')
    expect(stderr).toMatch(/^\S+ (?:.|\n)+\n$/)
    expect(stderr.length).toBeLessThan(2000)
  }
  expect(refused).toBeGreaterThan(20)
})

async function merged(part: unknown) {
  await writeFile(join(folder, 'part.json'), JSON.stringify(part))
  return command('merge', 'part.json', '--format', 'json')
}
