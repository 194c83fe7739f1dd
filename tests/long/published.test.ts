import { cp, mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join, resolve } from 'node:path'
import sharp, { type Sharp } from 'sharp'
import { beforeAll, describe, expect, test } from 'vitest'
import { run } from '../../src/commands/run.ts'
import type { PublishedReport } from '../../src/published/finding.ts'
import { recordingHost } from '../commands/host.ts'

/*
 * The way of a delivery to its end, on the example: sealed, received, published, with a fault planted at each place on the
 * website. What a website does to pictures (smaller, saved at a lower quality) is no fault.
 */
const HOME = resolve('examples/osprey-lane')
const CLEAN = join(HOME, 'delivery-clean')
const NAMES = [
  ...['Adeyemi-Folasade_00418', 'Bergström-Åsa_01207', 'Castellanos-Inés_10233', 'Dhillon-Harpreet_10871'],
  ...['Eriksen-Søren_00752', 'Farouk-Layla_11904', 'Grieve-Morag_00033', 'Haile-Tewodros_12450'],
  ...['Ikeda-Naoki_13377', 'Lund-Bjørn_00990', 'Mokoena-Thandi_15120', 'Nair-Priya_15388'],
]

let folder: string
const web = (name: string | undefined) => join(CLEAN, 'web', `${name}.jpg`)
const named = (start: string) => NAMES.find((name) => name.startsWith(start)) ?? ''

/** As a website shows a picture: 400 px wide, at quality 75, with its metadata. */
const published = (file: string) => sharp(file).resize(400).keepMetadata().jpeg({ quality: 75 }).toBuffer()

async function put(files: Readonly<Record<string, string | Buffer>>) {
  for (const [name, content] of Object.entries(files)) {
    await mkdir(dirname(join(folder, name)), { recursive: true })
    await writeFile(join(folder, name), content)
  }
}

async function command(...args: readonly string[]) {
  const { host, stdout, stderr } = recordingHost(folder)
  const exit = await run([args[0] ?? '', '--cache', 'measured', ...args.slice(1)], host)
  return { exit, stdout: stdout(), stderr: stderr() }
}

async function held(place: string, ...options: readonly string[]) {
  const { exit, stdout } = await command(
    'published',
    place,
    '--approved',
    'osprey.zip',
    '--format',
    'json',
    ...options,
  )
  const report: PublishedReport = JSON.parse(stdout)
  return {
    exit,
    report,
    told: report.findings.map(({ kind, file, person }) => `${kind} ${file ?? ''} ${person ?? ''}`),
  }
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'published-'))
  for (const name of ['brand.yaml', 'staff.csv', 'waivers.yaml'])
    await cp(join(HOME, name), join(folder, name))
  await cp(CLEAN, join(folder, 'delivery'), { recursive: true })
  expect(await command('seal', 'delivery', '--output', 'osprey.zip')).toMatchObject({ exit: 0 })
  expect(await command('receive', 'osprey.zip', '--output', 'received')).toMatchObject({ exit: 0 })
  for (const name of NAMES) await put({ [`site/${name}.jpg`]: await published(web(name)) })
})

describe('published', () => {
  test('nothing is said of a website that shows all, smaller and saved again', async () => {
    const { exit, report } = await held('site')
    expect(report.findings).toEqual([])
    expect({ exit, people: report.people, shown: report.shown }).toEqual({ exit: 0, people: 12, shown: 12 })
  })

  test('each planted fault is told, and nothing else', async () => {
    await cp(join(folder, 'site'), join(folder, 'bad'), { recursive: true })
    const site = (start: string) => join(folder, 'bad', `${named(start)}.jpg`)
    const [header = '', ...rows] = (await readFile(join(folder, 'staff.csv'), 'utf8')).trim().split('\n')
    const ends = (row: string) => {
      if (row.startsWith('Ikeda')) return '2026-01-31,'
      return row.startsWith('Lund') ? ',2026-01-31' : ','
    }
    const changed = [`${header},left,consent-until`, ...rows.map((row) => `${row},${ends(row)}`)]
    const image = (start: string) => sharp(web(named(start)))
    const save = async (start: string, edited: Sharp) =>
      writeFile(site(start), await edited.jpeg().toBuffer())
    await put({ 'changed.csv': changed.join('\n'), 'bad/Mokoena-Thandi_15120.jpg': 'no picture' })
    await rm(site('Adeyemi'))
    await save('Bergström', image('Castellanos').keepMetadata())
    await save('Dhillon', sharp(join(HOME, 'delivery-faulty/web', `${named('Dhillon')}.jpg`)).keepMetadata())
    await save(
      'Eriksen',
      image('Eriksen').extract({ left: 60, top: 75, width: 470, height: 470 }).keepMetadata(),
    )
    await save('Farouk', image('Farouk').resize(900).keepMetadata())
    await save('Grieve', image('Grieve').flop().keepMetadata())
    await save('Haile', image('Haile').resize(400))
    const teal = sharp({ create: { width: 400, height: 400, channels: 3, background: 'teal' } })
    await put({ 'bad/party.jpg': await teal.jpeg().toBuffer() })
    const { exit, told } = await held('bad', '--roster', 'changed.csv')
    expect(exit).toBe(1)
    expect(told.sort()).toEqual([
      'band Eriksen-Søren_00752.jpg Eriksen Søren 00752',
      'credit Haile-Tewodros_12450.jpg Haile Tewodros 12450',
      'ended Ikeda-Naoki_13377.jpg Ikeda Naoki 13377',
      'ended Lund-Bjørn_00990.jpg Lund Bjørn 00990',
      'larger Farouk-Layla_11904.jpg Farouk Layla 11904',
      'mirrored Grieve-Morag_00033.jpg Grieve Morag 00033',
      'missing  Adeyemi Folasade 00418',
      // Another frame of the same sitting.
      'not-approved Dhillon-Harpreet_10871.jpg Dhillon Harpreet 10871',
      'not-approved party.jpg ',
      'swapped Bergström-Åsa_01207.jpg Bergström Åsa 01207',
      'unreadable Mokoena-Thandi_15120.jpg Mokoena Thandi 15120',
    ])
  })

  test('a list says whom each picture is shown for', async () => {
    const rows = NAMES.map((name, i) => {
      const [family = '', given = '', id = ''] = name.split(/[-_]/)
      const file = `https://www.example.com/uploads/team/${i === 0 ? 7 : i}.jpg?v=2`
      return `${family},${given},${id},${file}`
    })
    await put({ 'export/site.csv': `Family,Given,Staff ID,URL\n${rows.join('\n')}\n` })
    for (const [i, name] of NAMES.entries())
      if (i > 0) await put({ [`export/team/${i}.jpg`]: await published(web(name)) })
    const { exit, told } = await held('export/site.csv')
    expect([exit, told]).toEqual([1, ['swapped team/7.jpg Adeyemi Folasade 00418']])
    await rm(join(folder, 'export/team/3.jpg'))
    expect((await held('export/site.csv')).told).toContain(
      'absent-file https://www.example.com/uploads/team/3.jpg?v=2 Dhillon Harpreet 10871',
    )
  })
})
