import { cp, mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import sharp, { type Sharp } from 'sharp'
import { run } from '../../../src/commands/run.ts'
import type { Receipt } from '../../../src/hand-over/receipt.ts'
import type { Report } from '../../../src/judge/report.ts'
import type { Prepared } from '../../../src/prepare/ledger/prepared.ts'
import type { PublishedReport } from '../../../src/published/finding.ts'
import { recordingHost } from '../../commands/host.ts'

/** The way of masters to the website: prepared, sealed, received, published. */
export interface Trip {
  /** Absolute; holds masters named `STAFF-ID.EXT`, and nothing else that is written here. */
  readonly folder: string
  /** Ending of the masters. */
  readonly ending: string
  /** Staff IDs, each of as many digits, of at least four people. */
  readonly people: readonly string[]
  /** Pictures of nobody among them. */
  readonly other: string
}

/** What was planted at one step, and what was told there. */
export interface Step {
  readonly step: string
  readonly planted: readonly string[]
  readonly told: readonly string[]
}

const STRANGER = (digits: number) => '9'.repeat(digits)

function specOf({ people: [first = ''], ending }: Trip): string {
  return `brand: Osprey Lane Veterinary Group
version: 1
naming: { pattern: "{deliverable}/{staff-id}.jpg", fields: { staff-id: { digits: ${first.length} } } }
masters: { naming: "{staff-id}.${ending}" }
prepare: { metadata: { creator: Studio Kestrel, copyright: © 2026 Osprey Lane Veterinary Group } }
roster: staff.csv
deliverables:
  print: { aspect-ratio: "4:5", pixel-size: { width: 400, height: 500 } }
  web: { aspect-ratio: "1:1", pixel-size: { width: 300, height: 300 } }
variants: all
file-format: { allow: [jpeg] }
color-space: sRGB
metadata-required: { creator: true, copyright: true }
headroom: { min: 2, max: 20 }
eye-line: { min: 30, max: 52 }
head-height: { min: 38, max: 66 }
centering: { max: 5 }
duplicate-picture: none
same-frame: all
`
}

/** Makes the trip, first without a fault, then with faults at each step. @throws Error when a step can't be made at all */
export async function roundTrip(trip: Trip): Promise<Step[]> {
  const { folder, people } = trip
  await writeFile(join(folder, 'brand.yaml'), specOf(trip))
  await writeFile(join(folder, 'staff.csv'), `staff-id\n${people.join('\n')}\n`)
  return [
    ...(await preparing(trip)),
    ...(await sealing(trip)),
    ...(await receiving(trip)),
    ...(await publishing(trip)),
  ]
}

async function command(folder: string, ...args: readonly string[]) {
  const { host, stdout, stderr } = recordingHost(folder)
  const exit = await run([args[0] ?? '', '--cache', join(folder, 'measured'), ...args.slice(1)], host)
  return { exit, stdout: stdout(), stderr: stderr() }
}

async function json<T>(folder: string, ...args: readonly string[]): Promise<T> {
  const { stdout, stderr } = await command(folder, ...args, '--format', 'json')
  if (stdout === '') throw new Error(`${args.join(' ')}: ${stderr}`)
  return JSON.parse(stdout)
}

async function preparing({ folder, ending, people, other }: Trip): Promise<Step[]> {
  const prepared = async (masters: string, output: string) => {
    const { files, unmade } = await json<Prepared>(folder, 'prepare', masters, '--output', output)
    return [
      ...files.flatMap(({ file, state }) => (state === 'delivered' ? [] : [`held back ${file}`])),
      ...new Set(unmade.map(({ master, kind }) => `${kind} ${master}`)),
    ]
  }
  const clean = await prepared('masters', 'delivery')
  const bad = join(folder, 'bad-masters')
  const [cut = '', small = '', first = '', second = ''] = people
  const master = (id: string) => join(bad, `${id}.${ending}`)
  await mkdir(bad)
  for (const id of people.slice(0, 5)) await cp(join(folder, 'masters', `${id}.${ending}`), master(id))
  const bytes = await readFile(master(cut))
  await writeFile(master(cut), bytes.subarray(0, bytes.length / 8))
  await writeFile(
    master(small),
    await sharp(await readFile(master(small)))
      .resize(200)
      .toBuffer(),
  )
  await cp(master(first), master(second))
  const stranger = `${STRANGER(cut.length)}.${ending}`
  await cp(other, join(bad, stranger))
  const twins = [first, second].flatMap((id) => [`held back print/${id}.jpg`, `held back web/${id}.jpg`])
  const planted = [
    ...twins,
    ...[`refused ${cut}.${ending}`, `refused ${small}.${ending}`, `question ${stranger}`],
  ]
  return [
    { step: 'prepare', planted: [], told: clean },
    { step: 'prepare, faults', planted, told: await prepared('bad-masters', 'bad-delivery') },
  ]
}

async function sealing({ folder, people }: Trip): Promise<Step[]> {
  const sealed = async (delivery: string, output: string) => {
    const { exit } = await command(folder, 'seal', delivery, '--output', output)
    const report = await json<Report>(folder, 'check', delivery)
    const isMade = (await readdir(folder)).includes(output)
    return [...findings(report), ...(isMade === (exit === 0) ? [] : ['sealed and refused'])]
  }
  const clean = await sealed('delivery', 'sealed.zip')
  await cp(join(folder, 'delivery'), join(folder, 'bad'), { recursive: true })
  const [gone = '', small = '', first = '', second = ''] = people
  const file = (id: string, deliverable = 'web') => join(folder, 'bad', deliverable, `${id}.jpg`)
  await rm(file(gone))
  await writeFile(
    file(small, 'print'),
    await sharp(await readFile(file(small, 'print')))
      .resize(380, 475)
      .keepMetadata()
      .toBuffer(),
  )
  const [a, b] = [await readFile(file(first)), await readFile(file(second))]
  await writeFile(file(first), b)
  await writeFile(file(second), a)
  const planted = [
    `variants ${gone}`,
    `pixel-size print/${small}.jpg`,
    ...[first, second].map((id) => `same-frame ${id} print/${id}.jpg web/${id}.jpg`),
    `duplicate-picture ${first} ${second} print/${first}.jpg web/${second}.jpg`,
    `duplicate-picture ${second} ${first} print/${second}.jpg web/${first}.jpg`,
  ]
  return [
    { step: 'seal', planted: [], told: clean },
    { step: 'seal, faults', planted, told: await sealed('bad', 'bad.zip') },
  ]
}

/** What fails, and what the delivery is asked about as a whole. A single file that is to be checked by eye is neither told nor missed. */
function findings({ files, delivery }: Report): string[] {
  const own = files.flatMap(({ file, outcomes }) =>
    outcomes.filter(({ verdict }) => verdict === 'fail').map(({ rule }) => `${rule} ${file}`),
  )
  const whole = delivery.outcomes.filter(({ verdict }) => verdict === 'fail' || verdict === 'unsure')
  return [
    ...own,
    ...whole.map(({ rule, files: about, people }) => `${rule} ${[...people, ...about].join(' ')}`),
  ]
}

async function receiving({ folder, people }: Trip): Promise<Step[]> {
  const received = async (place: string) => {
    const { bag, report, differences } = await json<Receipt>(
      folder,
      'receive',
      place,
      '--spec',
      'client.yaml',
    )
    const judged = report === null ? [] : findings(report)
    const problems = bag?.problems.map((one) => `${one.fault} ${one.file}`) ?? ['no bag']
    return [...problems, ...judged, ...(differences ?? []).map(({ setting }) => `differs ${setting}`)]
  }
  const spec = await readFile(join(folder, 'brand.yaml'), 'utf8')
  await writeFile(join(folder, 'client.yaml'), spec)
  const clean = await received('sealed.zip')
  await command(folder, 'receive', 'sealed.zip', '--output', 'kept')
  const steps: Step[] = [{ step: 'receive', planted: [], told: clean }]
  await writeFile(join(folder, 'client.yaml'), spec.replace('max: 66', 'max: 60'))
  const other = await received('kept')
  steps.push({
    step: 'receive, another spec',
    planted: ['differs head-height'],
    told: other.filter((one) => !one.startsWith('head-height ')),
  })
  await cp(join(folder, 'kept'), join(folder, 'damaged'), { recursive: true })
  const [flipped = '', gone = '', renamed = '', swapped = ''] = people
  const data = (name: string) => join(folder, 'damaged', 'data', name)
  const bytes = await readFile(data(`web/${flipped}.jpg`))
  bytes[bytes.length >> 1] = (bytes[bytes.length >> 1] ?? 0) ^ 1
  await writeFile(data(`web/${flipped}.jpg`), bytes)
  await rm(data(`web/${gone}.jpg`))
  await cp(data(`web/${renamed}.jpg`), data(`web/${renamed}-1.jpg`))
  await rm(data(`web/${renamed}.jpg`))
  const [web, print] = [data(`web/${swapped}.jpg`), data(`print/${swapped}.jpg`)]
  const [a, b] = [await readFile(web), await readFile(print)]
  await writeFile(web, b)
  await writeFile(print, a)
  const planted = [
    `changed data/web/${flipped}.jpg`,
    `missing data/web/${gone}.jpg`,
    `missing data/web/${renamed}.jpg`,
    `unlisted data/web/${renamed}-1.jpg`,
    // Files and bytes are counted, too.
    'oxum bag-info.txt',
    ...['web', 'print'].map((one) => `changed data/${one}/${swapped}.jpg`),
  ]
  return [...steps, { step: 'receive, damaged', planted, told: await received('damaged') }]
}

/** A fault on a website: what it does to somebody's picture, and what is to be told of it. */
interface Fault {
  readonly kind: string
  /** Null takes the picture away. */
  readonly spoil: (approved: () => Sharp, next: () => Sharp, other: string) => Sharp | null
}

const FAULTS: readonly Fault[] = [
  { kind: 'missing', spoil: () => null },
  { kind: 'swapped', spoil: (_, next) => next().resize(200).keepMetadata() },
  { kind: 'mirrored', spoil: (own) => own().flop().keepMetadata() },
  { kind: 'not-approved', spoil: (_, __, other) => sharp(other).resize(200, 200).keepMetadata() },
  { kind: 'credit', spoil: (own) => own().resize(200) },
  { kind: 'larger', spoil: (own) => own().resize(450).keepMetadata() },
  {
    kind: 'band',
    spoil: (own) => own().extract({ left: 40, top: 75, width: 220, height: 220 }).keepMetadata(),
  },
]

async function publishing({ folder, people, other }: Trip): Promise<Step[]> {
  const web = (id: string) => sharp(join(folder, 'delivery', 'web', `${id}.jpg`))
  const put = async (path: string, picture: Sharp) => {
    await mkdir(dirname(path), { recursive: true })
    await picture.jpeg({ quality: 75 }).toFile(path)
  }
  const held = async (site: string) => {
    const report = await json<PublishedReport>(folder, 'published', site, '--approved', 'sealed.zip')
    return report.findings.map(({ kind, file, person }) => `${kind} ${file ?? person}`)
  }
  const site = join(folder, 'site')
  for (const id of people) await put(join(site, 'web', `${id}.jpg`), web(id).resize(200).keepMetadata())
  const steps: Step[] = [{ step: 'published', planted: [], told: await held('site') }]
  for (let from = 0; from < FAULTS.length; from += people.length) {
    const name = `site-${from}`
    await cp(site, join(folder, name), { recursive: true })
    const planted: string[] = []
    for (const [at, { kind, spoil }] of FAULTS.slice(from, from + people.length).entries()) {
      const [id = '', next = ''] = [people[at], people[(at + 1) % people.length]]
      const path = join(folder, name, 'web', `${id}.jpg`)
      await rm(path)
      const spoiled = spoil(
        () => web(id),
        () => web(next),
        other,
      )
      if (spoiled) await put(path, spoiled)
      planted.push(`${kind} ${spoiled ? `web/${id}.jpg` : id}`)
    }
    steps.push({ step: `published, faults from ${from}`, planted, told: await held(name) })
  }
  return steps
}
