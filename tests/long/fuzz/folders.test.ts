import { execFileSync } from 'node:child_process'
import { appendFile, chmod, mkdir, mkdtemp, symlink, truncate, unlink, writeFile } from 'node:fs/promises'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import sharp from 'sharp'
import { afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import type { Report } from '../../../src/judge/report.ts'
import { released } from '../../package/released.ts'
import { throughNobody } from './as-nobody.ts'
import { runCommand } from './command.ts'

let release = ''
let good: Buffer
let base = ''
beforeAll(async () => {
  release = await released()
  good = await sharp({ create: { width: 80, height: 100, channels: 3, background: '#e8e4e0' } })
    .jpeg()
    .toBuffer()
})
beforeEach(async () => {
  base = await mkdtemp(join(tmpdir(), 'folders-'))
  await put('brand.yaml', 'brand: Osprey Lane Veterinary Group\nversion: 1\none-face: false\n')
})
afterEach(() => execFileSync('rm', ['-rf', base]))

async function put(file: string, content: string | Buffer = good): Promise<string> {
  const path = join(base, file)
  await mkdir(dirname(path), { recursive: true })
  await writeFile(path, content)
  return path
}

/** Judges the folder `d`; gives what a JSON report says of each file's `intact`. */
async function judge(...more: readonly string[]) {
  const ended = await runCommand(release, ['check', 'd', '--format', 'json', ...more], { cwd: base })
  expect(ended.signal, ended.stderr).toBeNull()
  const report = ended.stdout === '' ? null : (JSON.parse(ended.stdout) as Report)
  const files = (report?.files ?? []).map(({ file, outcomes }) => {
    const intact = outcomes.find(({ rule }) => rule === 'intact')
    return [file, intact?.verdict, intact?.reason ?? ''] as const
  })
  return {
    ...ended,
    report,
    files,
    verdicts: Object.fromEntries(files.map(([file, verdict]) => [file, verdict])),
  }
}

describe('what leads out of the delivery, or around in it', () => {
  test('links to files, folders and devices outside are not read, and loops end', async () => {
    await put('d/web/a.jpg')
    await put('outside/secret.jpg')
    await symlink('../../outside/secret.jpg', join(base, 'd/web/file.jpg'))
    await symlink('../../outside', join(base, 'd/web/folder'))
    await symlink('/dev/zero', join(base, 'd/web/zero.jpg'))
    await symlink('..', join(base, 'd/web/up'))
    await symlink('self.jpg', join(base, 'd/web/self.jpg'))
    const { code, report, verdicts } = await judge()
    const astray = ['file', 'zero', 'self'].map((name) => [`web/${name}.jpg`, 'fail'])
    expect(verdicts).toEqual({ 'web/a.jpg': 'pass', ...Object.fromEntries(astray) })
    expect(report?.left.links).toBe(2)
    expect(code).toBe(1)
  })

  test('a roster that a spec names by a link to a file outside is not read', async () => {
    await put(
      'spec/brand.yaml',
      'brand: Osprey Lane\nversion: 1\nroster: staff.csv\nnaming: { pattern: "{family}.jpg" }\n',
    )
    await put('secret.csv', 'password\nhunter2\n')
    await symlink('../secret.csv', join(base, 'spec/staff.csv'))
    await put('d/a.jpg')
    const { code, stderr } = await judge('--spec', 'spec/brand.yaml')
    expect(code).toBe(2)
    expect(stderr).toContain('leads out of the spec')
    expect(stderr).not.toContain('password')
  })

  test.each(['spec', 'roster', 'waivers', 'gallery', 'only'])(
    'a device or a pipe as --%s is a sentence, not a wait without end',
    async (option) => {
      await put('d/a.jpg')
      execFileSync('mkfifo', [join(base, 'pipe')])
      for (const path of ['/dev/zero', 'pipe']) {
        const { code, stderr } = await judge(`--${option}`, path)
        expect(code, `${option} ${path}: ${stderr}`).toBe(2)
        expect(stderr).toMatch(/regular file|ordinary file|could not be read/)
      }
    },
  )
})

describe('what is no file, or no longer', () => {
  test('a pipe, a socket and an empty file are failed rows, and nothing waits for them', async () => {
    await put('d/a.jpg')
    await put('d/empty.jpg', '')
    execFileSync('mkfifo', [join(base, 'd/pipe.jpg')])
    const server = createServer().listen(join(base, 'd/socket.jpg'))
    await new Promise((resolve) => server.once('listening', resolve))
    try {
      const { code, verdicts } = await judge()
      expect(code).toBe(1)
      expect(verdicts).toEqual({
        ...{ 'a.jpg': 'pass', 'empty.jpg': 'fail', 'pipe.jpg': 'fail', 'socket.jpg': 'fail' },
      })
    } finally {
      server.close()
    }
  })

  test('files that vanish, grow, shrink and change while they are read', async () => {
    for (let n = 0; n < 300; n++) await put(`d/${n}.jpg`)
    let n = 0
    const restless = setInterval(() => {
      const path = join(base, 'd', `${(n * 7) % 300}.jpg`)
      const changes = [
        () => unlink(path),
        () => appendFile(path, Buffer.alloc(100_000)),
        () => truncate(path, 50),
        () => writeFile(path, 'letter'),
      ]
      changes[n++ % changes.length]?.().catch(() => {})
    }, 1)
    try {
      const { code, files } = await judge('--no-cache')
      expect(code).toBe(1)
      // Those that were gone before the folder was listed are not on the list.
      expect(files.length).toBeGreaterThan(50)
      for (const [file, verdict, reason] of files) {
        expect(['pass', 'fail', 'skip'], file).toContain(verdict)
        expect(reason, file).toMatch(/\.$/)
      }
    } finally {
      clearInterval(restless)
    }
  })
})

describe('what may not be read', () => {
  test('a file is a failed row; a folder stops the run with a sentence, since portraits might be missing', async () => {
    await put('d/a.jpg')
    const locked = await put('d/locked.jpg')
    await chmod(locked, 0)
    const through = await throughNobody([release, base])
    if (through === null) return
    // The command keeps nothing of what it measures where it may not write.
    const args = ['check', 'd', '--no-cache', '--format', 'json']
    const first = await runCommand(release, args, { cwd: base, through })
    expect(first.stderr).toBe('')
    const report = JSON.parse(first.stdout) as Report
    const intact = report.files[1]?.outcomes.find(({ rule }) => rule === 'intact')
    expect(intact?.reason).toContain('EACCES')
    expect(first.code).toBe(1)

    await put('d/closed/b.jpg')
    await chmod(join(base, 'd/closed'), 0)
    const second = await runCommand(release, args, { cwd: base, through })
    await chmod(join(base, 'd/closed'), 0o755)
    expect(second.stderr).toMatch(/closed could not be read\. Check that you may read it/)
    expect({ code: second.code, stdout: second.stdout }).toEqual({ code: 2, stdout: '' })
  })
})

describe('names', () => {
  test('that are no UTF-8 are failed rows with a sentence', async () => {
    await put('d/a.jpg')
    const name = Buffer.concat([Buffer.from(`${base}/d/Zo`), Buffer.from([0xeb]), Buffer.from('.jpg')])
    await writeFile(name, good)
    const { code, files } = await judge()
    expect(code).toBe(1)
    expect(files.map(([file, verdict]) => [file, verdict])).toEqual([
      ['Zo\ufffd.jpg', 'fail'],
      ['a.jpg', 'pass'],
    ])
  })

  test('with escape sequences, line breaks and markup do nothing to a terminal', async () => {
    await put('d/\u001b[31mred\u001b[0m\n<b>&.jpg', 'letter')
    await put(`d/${'x'.repeat(240)}.jpg`, 'letter')
    const { stdout } = await runCommand(release, ['check', 'd'], { cwd: base })
    expect(stdout).not.toContain('\u001b')
    expect(stdout).toContain('<U+001B>[31mred')
  })

  test('10,000 in one folder', async () => {
    await mkdir(join(base, 'd'))
    for (let n = 0; n < 10_000; n++) await writeFile(join(base, 'd', `${n}.jpg`), 'letter')
    const { code, files } = await judge('--no-cache')
    expect(code).toBe(1)
    expect(files).toHaveLength(10_000)
  })
})
