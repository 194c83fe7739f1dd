import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import type { Report } from '../../src/judge/report.ts'
import { picture, smallDelivery } from './runner/deliveries.ts'
import type { Files } from './runner/repository.ts'
import { ONLY_CHANGED, onPullRequest, type Scene } from './runner/scene.ts'

const [DHILLON, GRIEVE, STRANGER] = ['Dhillon-Harpreet', 'Grieve-Morag', 'Stranger-Sam'].map(
  (name) => `portraits/${name}.jpg`,
) as [string, string, string]
const MISSING = 'Iyer,Nalini\nOsei,Kofi\n'

let delivery: Files
let faulty: Files
let again: Buffer
let bad: Buffer
beforeAll(async () => {
  delivery = await smallDelivery()
  // Two people are missing, and nobody knows a third.
  faulty = {
    ...delivery,
    'staff.csv': `${delivery['staff.csv']}${MISSING}`,
    [STRANGER]: await picture(80, 100, 120),
  }
  again = await picture(80, 100, 77)
  bad = await picture(60, 75)
})

const run = (
  change: Files,
  { base = faulty, ...setting }: Parameters<typeof onPullRequest>[2] & { base?: Files } = {},
) => onPullRequest(base, change, { ...setting, inputs: { ...ONLY_CHANGED, ...setting.inputs } })

async function reportOf({ workspace }: Scene): Promise<Report> {
  return JSON.parse(await readFile(join(workspace, 'portrait-report', 'report.json'), 'utf8'))
}

/** "rule: people [files]" of what counts, and of what is known. */
async function findings(ran: Scene): Promise<{ counts: string[]; known: string[] }> {
  const { delivery: whole } = await reportOf(ran)
  const failing = whole.outcomes.filter(({ verdict }) => verdict === 'fail')
  const told = (is: boolean) =>
    failing
      .filter(({ known = false }) => known === is)
      .map(({ rule, people, files }) => `${rule}: ${people.join(', ')} [${files.join(', ')}]`)
  return { counts: told(false), known: told(true) }
}

describe('only-changed on a base with faults', () => {
  test('a portrait that is saved again does not fail for others, whose findings are shown as known', async () => {
    const ran = await run({ [GRIEVE]: again })
    expect(ran).toMatchObject({
      exit: 0,
      commands: [],
      outputs: { verdict: 'pass', checked: '1', failed: '0' },
    })
    expect(await findings(ran)).toEqual({
      counts: [],
      known: ['roster: Iyer Nalini []', 'roster: Osei Kofi []', 'roster: Stranger Sam [Stranger-Sam.jpg]'],
    })
    for (const text of [ran.log, ran.summary]) {
      expect(text).toContain('Known before this change, and not counted: 3 findings')
      expect(text).toContain('3 known findings')
      expect(text).toContain('The delivery as a whole: no new problems.')
    }
    const page = await readFile(join(ran.workspace, 'portrait-report', 'report.html'), 'utf8')
    expect(page.match(/Known before/g)).toHaveLength(3)
    expect(await readdir(ran.temp)).not.toContainEqual(expect.stringContaining('portrait-gate-base'))
  })

  test('in a strict run too', async () => {
    expect(await run({ [GRIEVE]: again }, { inputs: { strict: 'true' } })).toMatchObject({ exit: 0 })
  })

  test('without only-changed everything counts as ever', async () => {
    const ran = await run({ [GRIEVE]: again }, { inputs: { 'only-changed': 'false' } })
    expect(ran).toMatchObject({ exit: 1, outputs: { verdict: 'fail', checked: '5' } })
    expect(await findings(ran)).toMatchObject({ known: [] })
  })

  test('a portrait that comes and is fine changes nothing', async () => {
    const ran = await run({ 'portraits/Iyer-Nalini.jpg': again })
    expect(ran).toMatchObject({ exit: 0 })
    expect(await findings(ran)).toMatchObject({ counts: [], known: { length: 2 } })
  })
})

describe('what a change adds or makes worse fails', () => {
  test.each<[string, () => Files, string[]]>([
    ['a bad portrait', () => ({ [GRIEVE]: bad }), []],
    ['a portrait that is taken away', () => ({ [GRIEVE]: null }), ['roster: Grieve Morag []']],
    ['the stranger saved again', () => ({ [STRANGER]: again }), ['roster: Stranger Sam [Stranger-Sam.jpg]']],
    [
      'the stranger under another path, with the same words',
      () => ({ [STRANGER]: null, 'portraits/in/Stranger-Sam.jpg': faulty[STRANGER] ?? '' }),
      ['roster: Stranger Sam [in/Stranger-Sam.jpg]'],
    ],
    [
      'another stranger in place of this one',
      () => ({ [STRANGER]: null, 'portraits/Stranger-Tim.jpg': faulty[STRANGER] ?? '' }),
      ['roster: Stranger Tim [Stranger-Tim.jpg]'],
    ],
    [
      'a second file of the stranger',
      () => ({ 'portraits/in/Stranger-Sam.jpg': again }),
      ['roster: Stranger Sam [Stranger-Sam.jpg, in/Stranger-Sam.jpg]'],
    ],
    [
      'a portrait put in the place of another, which moves',
      () => ({
        [GRIEVE]: faulty[DHILLON] ?? '',
        [DHILLON]: null,
        'portraits/in/Grieve-Morag.jpg': faulty[GRIEVE] ?? '',
      }),
      ['roster: Dhillon Harpreet []', 'variants: Grieve Morag [Grieve-Morag.jpg, in/Grieve-Morag.jpg]'],
    ],
  ])('%s', async (_, change, counts) => {
    const ran = await run(change())
    expect(ran).toMatchObject({ exit: 1, outputs: { verdict: 'fail' } })
    expect((await findings(ran)).counts).toEqual(counts)
    expect((await findings(ran)).known).not.toEqual([])
  })

  test('a bad portrait of the base that is renamed', async () => {
    const base = { ...faulty, [GRIEVE]: bad }
    const ran = await run({ [GRIEVE]: null, 'portraits/Iyer-Nalini.jpg': bad }, { base })
    expect(ran).toMatchObject({ exit: 1, outputs: { checked: '1', failed: '1' } })
  })

  test('one picture for two people, once a third gets it', async () => {
    const spec = `${delivery['brand.yaml']}duplicate-picture: none\n`
    const base = { ...delivery, 'brand.yaml': spec, [GRIEVE]: delivery[DHILLON] ?? '' }
    const twins = (files: string) => expect.stringMatching(`^duplicate-picture: .* \\[${files}\\]$`)
    const pair = await run({ 'portraits/Farouk-Layla.jpg': again }, { base })
    expect(pair.exit).toBe(0)
    expect(await findings(pair)).toMatchObject({ known: [twins('Dhillon-Harpreet.jpg, Grieve-Morag.jpg')] })
    const third = await run({ 'portraits/Farouk-Layla.jpg': delivery[DHILLON] ?? '' }, { base })
    expect(third.exit).toBe(1)
    expect(await findings(third)).toEqual({
      counts: [twins('Dhillon-Harpreet.jpg, Farouk-Layla.jpg, Grieve-Morag.jpg')],
      known: [],
    })
  })
})

describe('nothing is known', () => {
  test('when what is judged by may have changed, as by a row that is taken from the roster', async () => {
    for (const fromBase of ['true', 'false']) {
      const inputs = { 'spec-from-base': fromBase }
      const change = { 'staff.csv': `${delivery['staff.csv']}Iyer,Nalini\n`, [GRIEVE]: again }
      const ran = await run(change, { inputs })
      expect(ran).toMatchObject({ exit: 1, outputs: { checked: '5' } })
      expect(await findings(ran)).toMatchObject({ known: [] })
    }
  })

  // The pointer format of Git LFS, docs/spec.md, version 1.
  const pointer = `version https://git-lfs.github.com/spec/v1\noid sha256:${'0'.repeat(64)}\nsize 9\n`

  test.each<[string, () => Files, Files, Parameters<typeof run>[1], string]>([
    [
      'in a partial clone',
      () => faulty,
      {},
      { checkout: { filter: 'blob:none' } },
      'git lacks the content of portraits/Grieve-Morag.jpg',
    ],
    [
      'where a link leads to the delivery',
      () => ({ ...faulty, linked: { link: 'portraits' } }),
      {},
      { inputs: { paths: 'linked' } },
      'a link leads to linked',
    ],
    [
      'where the base has a link in place of a portrait',
      () => ({ ...faulty, 'portraits/kept/Dhillon.jpg': again, [DHILLON]: { link: 'kept/Dhillon.jpg' } }),
      { [DHILLON]: null },
      {},
      'portraits/Dhillon-Harpreet.jpg is a link there',
    ],
    [
      'where the base has a pointer of Git LFS',
      () => ({ ...faulty, [DHILLON]: pointer }),
      { [DHILLON]: null },
      {},
      'the content of Dhillon-Harpreet.jpg is in Git LFS and was not fetched',
    ],
  ])('%s, which the summary tells', async (_, base, change, setting, why) => {
    const ran = await run({ [GRIEVE]: again, ...change }, { ...setting, base: base() })
    expect(ran.exit).toBe(1)
    expect((await findings(ran)).known).toEqual([])
    expect(ran.summary).toContain(`can't be told from what is new (${why}`)
  })
})
