import { spawn } from 'node:child_process'
import { existsSync } from 'node:fs'
import { lstat, mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { logCommands } from '../../action/runner/log-commands.ts'
import { released } from '../../package/released.ts'
import { throughNobody } from './as-nobody.ts'
import { runCommand } from './command.ts'

let release = ''
let base = ''
const NAMES = ['::add-mask::x', ' ::set-output name=a::b', '##[add-mask]x', 'a ##[error]x']
beforeAll(async () => {
  release = await released()
  base = await mkdtemp(join(tmpdir(), 'surroundings-'))
  await writeFile(join(base, 'brand.yaml'), 'brand: "##[error]Osprey Lane"\nversion: 1\n')
  await mkdir(join(base, 'd'))
  for (let n = 0; n < 200; n++) await writeFile(join(base, 'd', `${n}.jpg`), 'letter')
  for (const name of NAMES) await writeFile(join(base, 'd', `${name}.jpg`), 'letter')
})
afterAll(async () => {
  await rm(base, { recursive: true })
})

test('a user without a home folder and without an account judges all the same', async () => {
  const through = await throughNobody([release, base])
  if (through === null) return
  const nameless = through.map((word) => (word === '65534' ? '54321' : word))
  const without = ['env', '-u', 'HOME', '-u', 'XDG_CACHE_HOME', ...nameless]
  const { code, stderr, stdout } = await runCommand(release, ['check', 'd'], { cwd: base, through: without })
  expect(stderr).toBe('')
  expect({ code, judged: stdout.includes('204 portraits') }).toEqual({ code: 1, judged: true })
})

test('a terminal that tells a width of 0 columns is taken for one of 80', async () => {
  const script = 'exec script -qec "stty cols 0; $*" /dev/null'
  const through = ['sh', '-c', script, 'sh']
  const { stdout } = await runCommand(release, ['check', 'd'], { cwd: base, through })
  const sentence = stdout.split(/\r?\n/).find((line) => line.includes('204 portraits:')) ?? ''
  expect(sentence.length).toBeGreaterThan(60)
})

test('a working folder that is gone is a sentence', async () => {
  await mkdir(join(base, 'gone'))
  const through = ['sh', '-c', 'cd gone && rmdir ../gone && exec "$@"', 'sh']
  const { code, stderr } = await runCommand(release, ['check', 'd'], { cwd: base, through })
  expect(stderr).toMatch(/^The folder that this runs in is no longer there\.[^\n]*\n$/)
  expect(code).toBe(2)
})

describe('a system that gives less than is needed', () => {
  const limited = (limit: string) => ['sh', '-c', `ulimit ${limit}; exec "$@"`, 'sh']

  test.each(['-n 64', '-n 40', '-n 26', '-n 20'])(
    'ulimit %s: with so few files all is judged, or nothing, by a sentence that says why',
    async (limit) => {
      const { code, stderr, stdout } = await runCommand(release, ['check', 'd'], {
        cwd: base,
        through: limited(limit),
      })
      const isAll = code === 1 && stdout.includes('204 portraits') && stderr === ''
      const sentence =
        /^(?:Nothing was judged: this process may open no more files at once;[^\n]* ulimit -n 1024, and run again|The spec brand\.yaml could not be read \(EMFILE\)\.[^\n]*)\.\n$/
      expect(isAll || (code === 2 && stdout === '' && sentence.test(stderr)), stderr).toBe(true)
    },
  )

  test('with 512 files all is judged', async () => {
    const { code, stdout } = await runCommand(release, ['check', 'd'], {
      cwd: base,
      through: limited('-n 512'),
    })
    expect({ code, judged: stdout.includes('204 portraits') }).toEqual({ code: 1, judged: true })
  })

  test('ulimit -v 8000000: too little memory for the face models is a sentence', async () => {
    const options = { cwd: base, through: limited('-v 8000000') }
    const { code, stderr, stdout } = await runCommand(release, ['check', 'd', '--no-cache'], options)
    expect(stderr).toMatch(/^Nothing was judged: there is not enough memory;[^\n]*\n$/)
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' })
  })

  // V8 ends the process itself where it can't even begin: no code of ours runs any more.
  test('ulimit -v 1000000: an end that no one takes for a verdict', async () => {
    const { code, signal, stdout } = await runCommand(release, ['check', 'd', '--no-cache'], {
      cwd: base,
      through: limited('-v 1000000'),
    })
    expect(stdout).toBe('')
    expect(signal !== null || (code ?? 0) > 1).toBe(true)
  })
})

describe("on a workflow's runner, names of files are no commands", () => {
  const through = ['env', 'GITHUB_ACTIONS=true']

  test.each(['table', 'json', 'markdown', 'csv', 'junit'])('in %s', async (format) => {
    const args = ['check', 'd', '--format', format, '--all']
    const { code, stdout } = await runCommand(release, args, { cwd: base, through })
    expect(code).toBe(1)
    expect(stdout).toContain('add-mask')
    expect(logCommands(stdout)).toEqual([])
  })

  test('in JSON, which stays what it is', async () => {
    const args = ['check', 'd', '--format', 'json']
    const { stdout } = await runCommand(release, args, { cwd: base, through })
    const names = JSON.parse(stdout).files.map(({ file }: { file: string }) => file)
    expect(names).toEqual(expect.arrayContaining(NAMES.map((name) => `${name}.jpg`)))
  })

  test('in what is wrong', async () => {
    const args = ['check', '##[error]nowhere', '--spec', 'd/::add-mask::x.jpg']
    const { code, stderr } = await runCommand(release, args, { cwd: base, through })
    expect(code).toBe(2)
    expect(logCommands(stderr)).toEqual([])
  })
})

// The shells' convention: 128 and the number of the signal (POSIX, kill(1): 2, 15).
test.each([
  ['SIGINT', 130],
  ['SIGTERM', 143],
] as const)('%s ends with %i', async (signal, exit) => {
  const codes: (number | null)[] = []
  // One that ended before it was stopped is tried again.
  while (codes.length < 5 && !codes.includes(exit)) {
    const cache = join(base, `cache-${signal}-${codes.length}`)
    const args = [join(release, 'bundle', 'start.cjs'), 'check', 'd', '--cache', cache]
    const child = spawn(process.execPath, args, { cwd: base, stdio: 'ignore' })
    const ended = new Promise<number | null>((resolve) => child.on('close', resolve))
    while (!existsSync(cache) && child.exitCode === null) await setTimeout(1)
    child.kill(signal)
    codes.push(await ended)
  }
  expect(codes.at(-1)).toBe(exit)
  expect(codes.slice(0, -1).every((code) => code === 1)).toBe(true)
})

test.skipIf(!existsSync('/dev/stdout'))(
  '/dev/stdout is written to, wherever it leads, and stays',
  async () => {
    const args = [
      'check',
      'd',
      '--format',
      'csv',
      '--output',
      '/dev/stdout',
      '--format',
      'json',
      '--output',
      'x.json',
    ]
    const out = join(base, 'out')
    for (const to of [`>> "${out}"`, `| cat > "${out}"`]) {
      await writeFile(out, '')
      const through = ['sh', '-c', `"$@" ${to}`, 'sh']
      const { stderr } = await runCommand(release, args, { cwd: base, through })
      expect(stderr).toBe('')
      expect(await readFile(out, 'utf8')).toContain('"99.jpg",')
      expect((await lstat('/dev/stdout')).isSymbolicLink()).toBe(true)
    }
  },
)
