import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { run } from '../../src/commands/run.ts'
import { picture, SPEC } from '../action/runner/deliveries.ts'
import { recordingHost } from './host.ts'

const PLAIN = `${SPEC.replace(/^waivers:.*\n/m, '').replace('{family}-', '{deliverable}/{family}-')}deliverables:
  print: {}
  web: {}
`
let folder: string
const put = async (files: Readonly<Record<string, string | Buffer>>) => {
  for (const [name, content] of Object.entries(files)) {
    await mkdir(dirname(join(folder, name)), { recursive: true })
    await writeFile(join(folder, name), content)
  }
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'partial '))
  const good = await picture()
  await put({
    'brand.yaml': PLAIN,
    // These look for faces, which takes its time.
    'strict.yaml': `${PLAIN}set-match: {}\nduplicate-picture: none\nsame-frame: all\n`,
    'staff.csv': 'family,given\nAdeyemi,Folasade\nFarouk,Layla\nGrieve,Morag\n',
    'all/print/Adeyemi-Folasade.jpg': good,
    'all/web/Adeyemi-Folasade.jpg': good,
    'all/print/Farouk-Layla.jpg': await picture(60, 75),
    'all/web/Farouk-Layla.jpg': await picture(80, 100, 90),
    'retakes/print/Farouk-Layla.jpg': await picture(80, 100, 70),
    'strangers/print/Osei-Kofi.jpg': await picture(80, 100, 50),
    'doubles/a/print/Farouk-Layla.jpg': await picture(80, 100, 40),
    'doubles/b/print/Farouk-Layla.jpg': await picture(80, 100, 30),
  })
})

async function check(...args: readonly string[]) {
  const { host, stdout, stderr } = recordingHost(folder)
  const exit = await run(['check', '--no-cache', ...args], host)
  return { exit, stdout: stdout(), stderr: stderr() }
}

async function report(...args: readonly string[]) {
  const { exit, stdout } = await check('--format', 'json', ...args)
  return { exit, ...JSON.parse(stdout) }
}

describe('check --partial', () => {
  test('a retake passes alone, and what is left open is told', async () => {
    const { exit, stdout } = await check('--spec', 'strict.yaml', '--partial', 'retakes')
    expect(exit).toBe(0)
    expect(stdout).not.toMatch(/MISSING|no portrait|Who has what/)
    const said = stdout.replaceAll(/\s+/g, ' ')
    expect(said).toContain(
      'Only a part of the delivery was checked. Not judged: who is missing; whether anyone lacks a deliverable; whether a picture is also among the files that were left out; whether left-out files are from the same frame; which portraits stand out from the set.',
    )
    expect(said).toContain('The part as a whole: no problems.')
    const { stdout: page } = await check('--partial', '--format', 'markdown', 'retakes')
    expect(page).toContain(
      'Only a part of the delivery was checked. Not judged: who is missing; whether anyone lacks a deliverable.',
    )
    // The same without it: everybody else is missing.
    expect(await report('retakes')).toMatchObject({ exit: 1, verdict: 'fail' })
  })

  test('one file, as its name says', async () => {
    const { exit, files, partial, delivery } = await report(
      ...['--spec', 'strict.yaml', '--partial', 'all/print/Farouk-Layla.jpg'],
    )
    expect(exit).toBe(1)
    expect(files).toMatchObject([{ person: 'Farouk Layla', deliverable: 'print', verdict: 'fail' }])
    expect(partial.notJudged).toContain('who is missing')
    expect(delivery.matrix).toBeNull()
    const skipped = delivery.outcomes.filter(({ verdict }: { verdict: string }) => verdict === 'skip')
    expect(skipped.map(({ rule }: { rule: string }) => rule)).toEqual(
      expect.arrayContaining(['roster', 'variants', 'duplicate-picture', 'set-match']),
    )
  })

  test.each([
    ['somebody who is not on the roster', 'strangers', 'roster'],
    ['two files for one place', 'doubles', 'variants'],
  ])('what a part can tell still fails: %s', async (_, path, rule) => {
    const { exit, delivery } = await report('--partial', path)
    expect(exit).toBe(1)
    expect(delivery.outcomes).toContainEqual(expect.objectContaining({ rule, verdict: 'fail' }))
  })
})

describe('check --since', () => {
  const earlier = async (...args: readonly string[]) => {
    await rm(join(folder, 'report.json'), { force: true })
    await check('--output', 'report.json', ...args)
  }
  const of = (changes: { rule: string; files: string[]; people: string[] }[]) =>
    changes.map(({ rule, files, people }) => [rule, ...(files.length > 0 ? files : people)].join(' '))

  test('says what is fixed, new and still there, in table, Markdown and JSON; the exit code is that of the check', async () => {
    await earlier('all')
    await put({
      'all/print/Farouk-Layla.jpg': await picture(80, 100, 70),
      'all/web/Osei-Kofi.jpg': await picture(60, 75, 20),
    })
    const { exit, since } = await report('--since', 'report.json', 'all')
    expect(exit).toBe(1)
    expect(since.report).toBe('report.json')
    expect(of(since.fixed)).toEqual(['pixel-size print/Farouk-Layla.jpg'])
    expect(of(since.new)).toContain('pixel-size web/Osei-Kofi.jpg')
    expect(of(since.new)).toContain('roster web/Osei-Kofi.jpg')
    expect(of(since.remaining)).toEqual(['roster Grieve Morag'])
    const { stdout } = await check('--since', 'report.json', 'all')
    expect(stdout).toMatch(/Since report\.json: \d new, 1 remains, 1 fixed\n/)
    expect(stdout).toMatch(/Fixed: pixel-size, "print\/Farouk-Layla\.jpg"/)
    expect(stdout).toMatch(/Remains: roster, "Grieve Morag"/)
    const { stdout: page } = await check('--since', 'report.json', '--format', 'markdown', 'all')
    expect(page).toMatch(/### Since report\.json: \d new, 1 remains, 1 fixed\n\n- New: /)
    await rm(join(folder, 'all/web/Osei-Kofi.jpg'))
    await put({ 'all/print/Farouk-Layla.jpg': await picture(60, 75) })
  })

  test('with --partial, what was not looked at is not called fixed', async () => {
    await earlier('all')
    const { exit, since } = await report('--partial', '--since', 'report.json', 'retakes')
    expect(exit).toBe(0)
    expect(of(since.fixed)).toEqual(['pixel-size print/Farouk-Layla.jpg'])
    expect(of(since.notJudged)).toEqual(['roster Grieve Morag'])
    expect([...since.new, ...since.remaining]).toEqual([])
  })

  test('nothing then or now', async () => {
    await earlier('--partial', 'retakes')
    const { stdout } = await check('--partial', '--since', 'report.json', 'retakes')
    expect(stdout).toContain('Since report.json: 0 new, 0 remain, 0 fixed')
  })

  test.each<[string, string, string[], RegExp]>([
    [
      'one that is not there',
      '',
      ['--since', 'nowhere.json'],
      /There is no file .*nowhere\.json\. Check the path/,
    ],
    [
      'one that is cut off',
      '{"tool": {"na',
      ['--since', 'other.json'],
      /other\.json is not JSON; give --since a report that check or merge wrote/,
    ],
    [
      'one of another program',
      '{"results": []}',
      ['--since', 'other.json'],
      /other\.json is not a report of portrait-gate/,
    ],
    [
      'one of another version',
      '{"tool": {"name": "portrait-gate", "version": "0.0.9"}}',
      ['--since', 'other.json'],
      /version 0\.0\.9 of portrait-gate and this is .*; check that delivery again with this version/,
    ],
    ['a part', '', ['--since', 'report.json', '--shard', '1/2'], /--shard and --since cannot be combined/],
    ['a part of a list', '', ['--partial', '--only', 'list'], /--only needs the whole delivery/],
  ])('%s: exit code 2 and a sentence', async (_, content, args, sentence) => {
    await put({ 'other.json': content })
    const { exit, stderr } = await check(...args, 'all')
    expect(exit).toBe(2)
    expect(stderr).toMatch(sentence)
  })

  test('a report on another delivery, or on a part of one, is refused', async () => {
    await earlier('--partial', 'strangers')
    expect(await check('--partial', '--since', 'report.json', 'retakes')).toMatchObject({
      exit: 2,
      stderr: expect.stringContaining('no file, no picture and no person in common'),
    })
    await earlier('--shard', '1/2', 'all')
    expect(await check('--since', 'report.json', 'all')).toMatchObject({
      exit: 2,
      stderr: expect.stringContaining('report.json is the report on part 1 of 2 of a delivery'),
    })
  })
})
