import { createHash } from 'node:crypto'
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openEntries } from '../../src/cache/entries.ts'
import { openIndex } from '../../src/cache/file-index.ts'
import { measure } from '../../src/measure/measure.ts'
import type { MeasurementGroup } from '../../src/measure/schema/measurements.ts'
import type { EntryReader } from '../../src/pool/entry-reader.ts'
import type * as LookUp from '../../src/pool/look-up.ts'
import type * as MeasureAll from '../../src/pool/measure-all.ts'
import { built, builtModule } from './built.ts'

const GOOD = 'examples/osprey-lane/delivery-clean/web/Nair-Priya_15388.jpg'
const GROUPS: readonly MeasurementGroup[] = ['file', 'checksum']
// More than the least that is worth a thread, which no portion divides evenly.
const FILES = 510
const [UNKEPT, TOUCHED, UNKNOWN] = [7, 300, 509]
const never = new AbortController().signal

let folder = ''
let lookUp: typeof LookUp.lookUp
let startReader: typeof LookUp.startReader
let measureAll: typeof MeasureAll.measureAll
const sources = () =>
  Array.from({ length: FILES }, (_, i) => ({ path: join(folder, 'in', `${i}.jpg`), file: `${i}.jpg` }))
const cache = () => ({
  entries: openEntries({ folder: join(folder, 'entries'), measurer: 'test' }),
  index: openIndex(join(folder, 'index')),
})

beforeAll(async () => {
  const dist = await built()
  ;({ lookUp, startReader } = await builtModule<typeof LookUp>(dist, 'pool/look-up.js'))
  ;({ measureAll } = await builtModule<typeof MeasureAll>(dist, 'pool/measure-all.js'))
  folder = await mkdtemp(join(tmpdir(), 'look-up-'))
  await mkdir(join(folder, 'in'))
  for (const { path, file } of sources()) await writeFile(path, file)
  // What was just written is always read.
  await setTimeout(2100)
  const measured = await measure({ path: join(process.cwd(), GOOD), file: '' }, GROUPS)
  const { entries, index } = cache()
  for (const [i, { path, file }] of sources().entries()) {
    if (i === UNKNOWN) continue
    const sha256 = createHash('sha256').update(file).digest('hex')
    await index.look(path)
    index.learn(path, sha256)
    // Letters of two bytes: lengths are those of UTF-8.
    const others = [{ what: 'Bjørn'.repeat(i % 3), count: 1, bytes: null }]
    if (i !== UNKEPT) await entries.keep(sha256, GROUPS, { ...measured, sha256, others })
  }
  await index.save()
  await writeFile(join(folder, 'in', `${TOUCHED}.jpg`), 'another content')
})
afterAll(() => rm(folder, { recursive: true }))

/** What is told of the files, in their order. */
async function toldBy(reader: EntryReader | null, told: () => void = () => {}): Promise<string[]> {
  const found = new Map<string, string>()
  await lookUp(sources(), GROUPS, cache(), reader, never, (one) => {
    found.set(one.file, JSON.stringify(one))
    told()
  })
  reader?.close()
  return sources().flatMap(({ file }) => found.get(file) ?? [])
}

test('another thread tells of each file what this one does', async () => {
  const here = await toldBy(null)
  const left = [UNKEPT, TOUCHED, UNKNOWN].map((i) => `${i}.jpg`)
  const known = sources().filter(({ file }) => !left.includes(file))
  expect(here.map((text) => JSON.parse(text).file)).toEqual(known.map(({ file }) => file))
  const reader = startReader(cache(), 2, FILES)
  expect(reader).not.toBeNull()
  expect(await toldBy(reader)).toEqual(here)
})

test('a thread that ends before or meanwhile leaves the rest to this one', async () => {
  const here = await toldBy(null)
  const ended = startReader(cache(), 2, FILES)
  ended?.close()
  expect(await toldBy(ended)).toEqual(here)
  const ending = startReader(cache(), 2, FILES)
  let told = 0
  expect(await toldBy(ending, () => ++told === 100 && ending?.close())).toEqual(here)
})

test('what it opens is not looked at here', async () => {
  const { entries, index } = cache()
  const looked: string[] = []
  const counting = {
    ...index,
    look: (path: string) => {
      looked.push(path)
      return index.look(path)
    },
  }
  const asked = sources().filter((_, i) => ![UNKEPT, TOUCHED, UNKNOWN].includes(i))
  const means = { signal: never, progress: () => {}, workers: 2, cache: { entries, index: counting } }
  const measured = await measureAll(asked, GROUPS, means)
  expect(measured.map(({ file }) => file)).toEqual(asked.map(({ file }) => file))
  expect(looked).toEqual([])
})

test('few files, one thread or no index are not worth another', () => {
  const { entries, index } = cache()
  expect(startReader({ entries, index }, 2, 499)).toBeNull()
  expect(startReader({ entries, index }, 1, FILES)).toBeNull()
  expect(startReader({ entries, index: null }, 2, FILES)).toBeNull()
  expect(startReader(null, 2, FILES)).toBeNull()
})

test('a stop is heeded', async () => {
  const reader = startReader(cache(), 2, FILES)
  const stopped = lookUp(sources(), GROUPS, cache(), reader, AbortSignal.abort(), () => {})
  await expect(stopped).rejects.toThrow()
  reader?.close()
})
