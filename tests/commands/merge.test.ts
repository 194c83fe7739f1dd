import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { run } from '../../src/commands/run.ts'
import type { Report } from '../../src/judge/report.ts'
import { recordingHost } from './host.ts'

const EXAMPLE = 'examples/osprey-lane'
const SPEC = ['--spec', `${EXAMPLE}/brand.yaml`]
// Measuring the example takes some 15 s on two cores. It is done once for each state of the code that measures, which the
// cache goes by: what it gives is what measuring gives.
const CACHE = resolve('.cache', 'measured')
const LONG = 600_000

let folder = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'merge-'))
})
afterAll(() => rm(folder, { recursive: true }))

async function command(...argv: readonly string[]) {
  const { host, stdout, stderr } = recordingHost(process.cwd())
  const code = await run(argv, host)
  return { code, stdout: stdout(), stderr: stderr() }
}

async function checked(delivery: string, file: string, ...more: readonly string[]): Promise<string> {
  const path = join(folder, file)
  const { stderr } = await command(
    'check',
    `${EXAMPLE}/${delivery}`,
    ...SPEC,
    ...more,
    '--cache',
    CACHE,
    '--format',
    'json',
    '--output',
    path,
  )
  expect(stderr).toBe('')
  return path
}

describe('the parts of the example, put together, are the whole', () => {
  let whole = ''
  beforeAll(async () => {
    whole = await readFile(await checked('delivery-faulty', 'whole.json'), 'utf8')
  }, LONG)

  test.each([1, 2, 3, 7])(
    'byte for byte, of %i parts',
    async (of) => {
      const paths: string[] = []
      // The last part first: the order in which they come does not matter.
      for (let number = of; number >= 1; number--) {
        paths.push(await checked('delivery-faulty', `${number}-of-${of}.json`, '--shard', `${number}/${of}`))
      }
      const { code, stdout, stderr } = await command('merge', ...paths, '--format', 'json')
      expect(stderr).toBe('')
      expect(code).toBe(1)
      expect(stdout).toBe(whole)
    },
    LONG,
  )

  test('the whole keeps no signatures of faces; a part has what merge needs', async () => {
    expect(whole).not.toContain('"signature"')
    const part = JSON.parse(await readFile(join(folder, '1-of-2.json'), 'utf8')) as Report
    expect(part.part).toMatchObject({ number: 1, of: 2, total: 23 })
    expect(part.delivery).toEqual({ outcomes: [], matrix: null })
  })

  test.each([
    [
      'a part is missing',
      ['1-of-3.json', '3-of-3.json'],
      'Part 2 of 3 is missing; name the reports on all parts.',
    ],
    ['a part is there twice', ['1-of-2.json', '1-of-2.json'], 'are both part 1'],
    ['of other divisions', ['1-of-2.json', '2-of-3.json'], 'differ in the number of parts;'],
    ['a whole delivery', ['whole.json'], 'is the report on a whole delivery'],
    ['nothing there', ['none.json'], 'There is no file '],
  ])('%s', async (_, files, words) => {
    const { code, stderr } = await command('merge', ...files.map((file) => join(folder, file)))
    expect(stderr).toContain(words)
    expect(code).toBe(2)
  })

  test.each([
    ['no JSON', () => '{', 'is not JSON'],
    ['no report', () => '[]', 'is not a report of portrait-gate'],
    [
      'of another version',
      (part: Report) => ({ ...part, tool: { ...part.tool, version: '9.9.9' } }),
      'was written by version 9.9.9',
    ],
    [
      'of another delivery',
      (part: Report) => ({ ...part, part: { ...part.part, total: 9 } }),
      'differ in the delivery;',
    ],
    [
      'judged by another spec',
      (part: Report) => {
        const sources = part.part && { ...part.part.sources, spec: { file: 'other.yaml', text: '' } }
        return { ...part, part: { ...part.part, sources } }
      },
      'differ in the spec, roster, waivers file or gallery;',
    ],
    [
      'with a file taken out',
      (part: Report) => ({ ...part, files: part.files.slice(1) }),
      'lacks the measurements',
    ],
    [
      'with a name taken out',
      (part: Report) => ({ ...part, part: { ...part.part, names: part.part?.names.slice(1) } }),
      'do not make up the delivery',
    ],
  ])('a part that is %s is refused', async (_, spoil, words) => {
    const part = JSON.parse(await readFile(join(folder, '2-of-2.json'), 'utf8')) as Report
    const spoilt = spoil(part)
    const path = join(folder, 'spoilt.json')
    await writeFile(path, typeof spoilt === 'string' ? spoilt : JSON.stringify(spoilt))
    const { code, stderr } = await command('merge', join(folder, '1-of-2.json'), path)
    expect(stderr).toContain(words)
    expect(code).toBe(2)
  })
})

test('merge needs something to merge', async () => {
  expect(await command('merge')).toMatchObject({
    code: 2,
    stderr: expect.stringContaining("missing required argument 'reports'"),
  })
})

test.each(['0/2', '3/2', 'two'])('--shard %s is no part', async (shard) => {
  const { code, stderr } = await command('check', `${EXAMPLE}/delivery-clean`, ...SPEC, '--shard', shard)
  expect(code).toBe(2)
  expect(stderr).toContain('such as 2/5')
})
