import { execFile } from 'node:child_process'
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { promisify } from 'node:util'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Rename } from '../../src/naming/rename.ts'
import { renames } from '../../src/report/renames.ts'
import { forShell } from '../../src/report/safe.ts'
import { reportOn } from '../judge/sample.ts'

const run = promisify(execFile)

/** A report that asks for these renames. */
function asking(all: readonly Rename[]) {
  const report = reportOn([{ file: 'web/a.jpg' }])
  const outcome = { rule: 'file-name', advisory: false, verdict: 'fail' as const, reason: 'Wrong.' }
  const about = { people: [], files: [], measured: null, expected: null, renames: [...all] }
  return { ...report, delivery: { outcomes: [{ ...outcome, ...about }], matrix: null } }
}

let folder = ''
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'portrait-gate-renames-'))
})
afterEach(() => rm(folder, { recursive: true, force: true }))

async function fill(files: Readonly<Record<string, string>>) {
  for (const [file, content] of Object.entries(files)) {
    await mkdir(dirname(join(folder, file)), { recursive: true })
    await writeFile(join(folder, file), content)
  }
}

async function found(): Promise<Record<string, string>> {
  const all = await readdir(folder, { recursive: true, withFileTypes: true })
  const files = all.filter((entry) => entry.isFile())
  return Object.fromEntries(
    await Promise.all(
      files.map(async ({ parentPath, name }): Promise<[string, string]> => {
        const path = join(parentPath, name)
        return [path.slice(folder.length + 1), await readFile(path, 'utf8')]
      }),
    ),
  )
}

/** Runs the script in the folder, by the shell's own standard input; what it says when it stops, else nothing. */
async function play(all: readonly Rename[], shell = 'sh'): Promise<string> {
  const script = join(folder, '..', `${folder.split('/').at(-1)}.sh`)
  await writeFile(script, renames(asking(all)))
  try {
    const { stdout, stderr } = await run(shell, [script, folder], { env: { PATH: process.env.PATH ?? '' } })
    return stdout + stderr
  } catch (error) {
    if (error instanceof Error && 'stderr' in error) return String(error.stderr)
    throw error
  } finally {
    await rm(script)
  }
}

const HOSTILE = [
  "web/it's.jpg",
  'web/"quoted".jpg',
  'web/two\nlines.jpg',
  'web/line break at the end\n',
  '-rf',
  'web/--help.jpg',
  'web/$(touch owned).jpg',
  'web/`touch owned`.jpg',
  'web/$'.concat('{HOME}.jpg'),
  "web/'; touch owned; '.jpg",
  'web/back\\slash \\n \\0101 \\c.jpg',
  'web/%s %d %b.jpg',
  'web/*?[a].jpg',
  'web/ spaces  .jpg',
  'web/\ttab.jpg',
  'web/\u001b[31mred.jpg',
  'web/gpj\u202e.exe',
  'web/#hash & pipe | > x.jpg',
  'web/~.jpg',
  'web/=x.jpg',
  'web/!!.jpg',
  'web/Zoe\u0308.jpg',
  'web/長い名前👩🏽‍🔧.jpg',
  'we\nb/$(touch owned)/x.jpg',
]

// POSIX leaves the shell open; dash and bash are what Debian and macOS have as sh.
describe.each(['dash', 'bash'])('run by %s', (shell) => {
  test('hostile names are moved as they are, there and back, and nothing else happens', async () => {
    const content = Object.fromEntries(HOSTILE.map((file, i) => [file, `${i}`]))
    await fill(content)
    const there = HOSTILE.map((from, i) => ({ from, to: `right/${i}.jpg` }))
    expect(await play(there, shell)).toBe('')
    expect(await found()).toEqual(Object.fromEntries(HOSTILE.map((_, i) => [`right/${i}.jpg`, `${i}`])))
    const back = there.map(({ from, to }) => ({ from: to, to: from }))
    expect(await play(back, shell)).toBe('')
    expect(await found()).toEqual(content)
  })

  test('a taken name stops it and everything stays', async () => {
    const files = { 'a copy.jpg': '1', 'a.jpg': '2', 'b (1).jpg': '3' }
    await fill(files)
    const said = await play(
      [
        { from: 'a copy.jpg', to: 'a.jpg' },
        { from: 'b (1).jpg', to: 'b.jpg' },
      ],
      shell,
    )
    expect(said).toBe('Stopped: a.jpg is taken, a copy.jpg stays\n')
    expect(await found()).toEqual(files)
  })
})

test('a folder of that name is taken too', async () => {
  await fill({ 'a copy.jpg': '1', 'a.jpg/x': '2' })
  expect(await play([{ from: 'a copy.jpg', to: 'a.jpg' }])).toContain('a.jpg is taken')
})

test('a missing file stops it; one that was moved before does not', async () => {
  await fill({ 'a (1).jpg': '1' })
  const rename = { from: 'a (1).jpg', to: 'a.jpg' }
  expect(await play([rename, { from: 'b (1).jpg', to: 'b.jpg' }])).toBe('Stopped: b (1).jpg is missing\n')
  expect(await found()).toEqual({ 'a.jpg': '1' })
  expect(await play([rename])).toBe('')
  expect(await found()).toEqual({ 'a.jpg': '1' })
})

test('letter case goes by way of another name', async () => {
  await fill({ 'Web/A.JPG': '1' })
  expect(await play([{ from: 'Web/A.JPG', to: 'web/a.jpg' }])).toBe('')
  expect(await found()).toEqual({ 'web/a.jpg': '1' })
})

describe('copies', () => {
  const copy: Rename = { from: 'a (1).jpg', sameAs: 'a.jpg', by: 'bytes' }
  test('of the same bytes are deleted, and again nothing', async () => {
    await fill({ 'a (1).jpg': '1', 'a.jpg': '1' })
    expect(await play([copy])).toBe('')
    expect(await play([copy])).toBe('')
    expect(await found()).toEqual({ 'a.jpg': '1' })
  })
  test.each([
    ['has other bytes by now', { 'a (1).jpg': '1', 'a.jpg': '2' }],
    ['is gone', { 'a (1).jpg': '1' }],
  ])('stay when the other %s', async (_, files) => {
    await fill(files)
    expect(await play([copy])).toBe('Stopped: a (1).jpg is not a copy of a.jpg and stays\n')
    expect(await found()).toEqual(files)
  })
  test('go before the file that they copy is renamed', async () => {
    await fill({ 'a (1).jpg': '1', 'a copy.jpg': '1' })
    await play([
      { from: 'a (1).jpg', to: 'a.jpg' },
      { from: 'a copy.jpg', sameAs: 'a (1).jpg', by: 'bytes' },
    ])
    expect(await found()).toEqual({ 'a.jpg': '1' })
  })
  test('of a picture, and what is refused, stand in comments', async () => {
    const text = renames(
      asking([
        { from: 'a (1).jpg', sameAs: 'a.jpg', by: 'picture' },
        { from: 'b\n.jpg', refused: 'clash', wanted: 'c.jpg', others: ['d.jpg', 'e.jpg'] },
        { from: 'f.png', refused: 'format', wanted: 'f.jpg' },
      ]),
    )
    expect(text).toContain('# a (1).jpg: shows the same picture as a.jpg; check by eye and delete one\n')
    expect(text).toContain('# b<U+000A>.jpg: should be c.jpg, as should d.jpg, e.jpg\n')
    expect(text).toContain('# f.png: export again as f.jpg\n')
    expect(text).toContain('# 0 files to rename, 0 copies to delete, 3 to decide by eye.\n')
  })
})

test('a line a file, in the order of the names', () => {
  const text = renames(
    asking([
      { from: 'b copy.jpg', to: 'b.jpg' },
      { from: "a's (1).jpg", to: "a's.jpg" },
    ]),
  )
  expect(text).toContain(`\nmove 'a'\\''s (1).jpg' 'a'\\''s.jpg'\nmove 'b copy.jpg' 'b.jpg'\n`)
})

test('what was waived is not renamed', () => {
  const report = asking([{ from: 'b copy.jpg', to: 'b.jpg' }])
  const waiver = { reason: 'Agreed.', approvedBy: 'Ingrid Vale', until: '2027-03-31' }
  const outcomes = report.delivery.outcomes.map((outcome) => ({ ...outcome, waiver }))
  expect(renames({ ...report, delivery: { outcomes, matrix: null } })).toContain('# 0 files to rename')
})

test('what may not survive copying is written in bytes', () => {
  // RFC 3629: U+0308 is CC 88, in octal 314 210.
  expect(forShell('Zoe\u0308')).toBe("'Zoe\\0314\\0210'")
  expect(forShell('Zoë \\ a\n')).toBe("'Zoë \\\\ a\\0012'")
})
