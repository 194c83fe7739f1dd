import { link, mkdir, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { LOG } from '../../../src/session-log/session.ts'
import { grayJpeg } from '../../watch/session-folder.ts'
import { Running } from './running.ts'

/** More by hand: FILES=10000 npm run test:long tests/long/watch/flood.test.ts */
const FILES = Number(process.env.FILES ?? 1000)
const CONTENTS = 10

let base = ''
let shoot = ''
let run: Running
beforeEach(async () => {
  base = await mkdtemp(join(tmpdir(), 'portrait-gate-flood-'))
  shoot = join(base, 'shoot')
  await mkdir(shoot)
  await writeFile(
    join(base, 'brand.yaml'),
    'brand: Osprey Lane Veterinary Group\nversion: 1\ntilt: { max: 3 }\n',
  )
  run = await Running.start(base)
  await run.url()
})
afterEach(async () => {
  await run.end('SIGKILL')
  await rm(base, { recursive: true, force: true })
})

/** The files of the log by kind of entry, each time that one is named. */
async function told(): Promise<Record<'frame' | 'file', string[]>> {
  const text = await readFile(join(shoot, '.portrait-gate', LOG), 'utf8').catch(() => '')
  const lines = text.split('\n').slice(0, -1)
  const entries = lines.map((line) => JSON.parse(line) as { kind: string; file: string })
  const of = (wanted: string) => entries.filter(({ kind }) => kind === wanted).map(({ file }) => file)
  return { frame: of('frame'), file: of('file') }
}

async function until(count: number): Promise<Record<'frame' | 'file', string[]>> {
  for (;;) {
    const { frame, file } = await told()
    if (frame.length + file.length >= count) return { frame, file }
    await setTimeout(200)
  }
}

test(`${FILES} files at once, copies of ${CONTENTS} frames: each is taken down once, and each content is one frame`, async () => {
  const card = join(base, 'card')
  await mkdir(card)
  const names = Array.from({ length: FILES }, (_, n) => `IMG_${String(n).padStart(5, '0')}.JPG`)
  for (const [n, name] of names.entries()) {
    const first = join(card, names[n % CONTENTS] ?? '')
    if (n < CONTENTS) await writeFile(first, await grayJpeg(100 + n))
    else await link(first, join(card, name))
  }
  await rename(card, join(shoot, 'card'))
  const { frame, file } = await until(FILES)
  expect(frame).toHaveLength(CONTENTS)
  expect(new Set([...frame, ...file])).toEqual(new Set(names.map((name) => `card/${name}`)))
  expect(frame.length + file.length).toBe(FILES)
  await run.end()
  // Once more: all of it is known.
  run = await Running.start(base)
  await run.url()
  await writeFile(join(shoot, 'last.JPG'), await grayJpeg(99))
  expect((await until(FILES + 1)).frame.at(-1)).toBe('last.JPG')
  expect(await told()).toMatchObject({ frame: { length: CONTENTS + 1 }, file: { length: FILES - CONTENTS } })
})

test('what arrives while the machine sleeps is judged when it wakes, each once', async () => {
  await writeFile(join(shoot, '1.JPG'), await grayJpeg(100))
  await until(1)
  run.sleep(true)
  await writeFile(join(shoot, '2.JPG'), await grayJpeg(110))
  await writeFile(join(shoot, '3.JPG'), (await grayJpeg(120)).subarray(0, 300))
  await setTimeout(1500)
  await writeFile(join(shoot, '3.JPG'), await grayJpeg(120))
  await rm(join(shoot, '1.JPG'))
  run.sleep(false)
  await writeFile(join(shoot, '4.JPG'), await grayJpeg(130))
  const { frame, file } = await until(4)
  expect([frame.toSorted(), file]).toEqual([['1.JPG', '2.JPG', '3.JPG', '4.JPG'], []])
})
