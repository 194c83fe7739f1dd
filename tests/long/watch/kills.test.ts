import { createHash } from 'node:crypto'
import { appendFile, mkdir, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { LOG } from '../../../src/session-log/session.ts'
import { released } from '../../package/released.ts'
import { seeded } from '../../random.ts'
import { grayJpeg, tap } from '../../watch/session-folder.ts'
import { Running } from './running.ts'

/** More by hand: KILLS=500 npm run test:long tests/long/watch/kills.test.ts */
const KILLS = Number(process.env.KILLS ?? 20)
/** Longest life of a run, by what it takes to start: from before it has read its log until it has judged what there was. */
const LIVES = 1.5

let base = ''
let shoot = ''
beforeAll(async () => {
  base = await mkdtemp(join(tmpdir(), 'portrait-gate-kills-'))
  shoot = join(base, 'shoot')
  await mkdir(shoot)
  const spec =
    'brand: Osprey Lane Veterinary Group\nversion: 1\nnaming: { pattern: "{family}_{staff-id}.jpg" }\nroster: staff.csv\n'
  await writeFile(join(base, 'brand.yaml'), spec)
  await writeFile(join(base, 'staff.csv'), 'family,staff-id,pick\nIkeda,13377,\n')
})
afterAll(() => rm(base, { recursive: true, force: true }))

interface Line {
  readonly kind: string
  readonly digest?: string
  readonly file?: string
  readonly sitter?: string | null
}

async function lines(): Promise<Line[]> {
  const text = await readFile(join(shoot, '.portrait-gate', LOG), 'utf8').catch(() => '')
  return text
    .split('\n')
    .slice(0, -1)
    .map((line) => JSON.parse(line) as Line)
}

const digest = (content: Buffer) => createHash('sha256').update(content).digest('hex')

test(`${KILLS} kills while frames arrive, grow, move and are renamed: nothing is lost and nothing judged twice`, async () => {
  const random = seeded(17)
  const contents: Buffer[] = []
  const cut: { path: string; rest: Buffer }[] = []
  let deeds = 0
  // Made before the time of a start is taken.
  await released()
  const began = performance.now()
  const first = await Running.start(base)
  await first.url()
  await first.end()
  const lifeMs = LIVES * (performance.now() - began)
  for (let n = 0; n < KILLS; n++) {
    const run = await Running.start(base)
    const whole = await grayJpeg(n)
    contents.push(whole)
    const path = join(shoot, `card-${n % 3}`, `IMG_${n % 5}_${n}.JPG`)
    await mkdir(join(path, '..'), { recursive: true })
    // Every third frame is cut off by what kills the run, and grows later.
    const end = n % 3 === 2 ? Math.floor(random() * whole.length) : whole.length
    await writeFile(path, whole.subarray(0, end))
    if (end < whole.length) cut.push({ path, rest: whole.subarray(end) })
    const grown = n % 4 === 0 ? cut.shift() : undefined
    if (grown) await appendFile(grown.path, grown.rest)
    if (n % 5 === 0) {
      const done = await tap(await run.url(), { do: 'sits', sitter: n % 2 ? null : 'Ikeda 13377' })
      if (done === 204) deeds++
    }
    await setTimeout(random() * lifeMs)
    await run.end('SIGKILL')
    // Between two runs a folder gets another name.
    if (n % 10 !== 9) continue
    await rename(join(shoot, 'card-1'), join(shoot, `card-1-${n}`))
    for (const one of cut) one.path = one.path.replace('/card-1/', `/card-1-${n}/`)
  }
  for (const { path, rest } of cut) await appendFile(path, rest)
  const last = await Running.start(base)
  const wanted = new Set(contents.map(digest))
  for (;;) {
    const judged = new Set(
      (await lines()).flatMap(({ kind, digest }) => (kind === 'frame' ? (digest ?? []) : [])),
    )
    if ([...wanted].every((one) => judged.has(one))) break
    await setTimeout(200)
  }
  await last.end()
  const frames = (await lines()).filter(({ kind }) => kind === 'frame')
  expect(frames.map(({ digest }) => digest).toSorted()).toEqual([...wanted].toSorted())
  // What was answered was kept.
  expect((await lines()).filter(({ kind }) => kind === 'sits').length).toBeGreaterThanOrEqual(deeds)
  expect(deeds).toBeGreaterThan(0)
})
