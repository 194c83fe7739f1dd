import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join, resolve } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { measure } from '../../src/measure/measure.ts'
import { GROUPS } from '../../src/measure/schema/measurements.ts'
import type { FileLimits, Workers } from '../../src/pool/workers.ts'
import { built, builtModule } from './built.ts'

const GOOD = 'examples/osprey-lane/delivery-clean/web/Nair-Priya_15388.jpg'
const source = { path: join(process.cwd(), GOOD), file: 'web/Nair.jpg' }
const never = new AbortController().signal

let open: (limits?: FileLimits) => Workers
/** With the usual limits: a thread loads the networks when it first measures, which takes longer than what is tried here. */
let usual: Workers
const opened: Workers[] = []
beforeAll(async () => {
  const module = await builtModule<{ Workers: typeof Workers }>(await built(), 'pool/workers.js')
  open = (limits) => {
    const workers = new module.Workers(2, limits ? { limits } : {})
    opened.push(workers)
    return workers
  }
  usual = open()
})
afterAll(async () => {
  for (const workers of opened) await workers.close()
})

test('two workers at once measure as this thread does', async () => {
  const both = await Promise.all([1, 2].map(() => usual.measure([source], GROUPS, { signal: never })))
  const here = JSON.stringify(await measure(source, GROUPS))
  expect(both.flat().map((one) => JSON.stringify(one))).toEqual([here, here])
})

// Buffers of one file are lent to the next: nothing of it may show there.
test('in one worker the order of files changes nothing, and a spoiled one among them neither', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'order-'))
  const spoiled = join(folder, 'spoiled.jpg')
  const bytes = await readFile(source.path)
  await writeFile(spoiled, bytes.subarray(0, 0.6 * bytes.length))
  try {
    const paths = [
      GOOD,
      spoiled,
      GOOD.replace('web', 'print'),
      GOOD.replace('Nair-Priya_15388', 'Lund-Bjørn_00990'),
      GOOD,
    ]
    const sources = paths.map((path, n) => ({ path: resolve(path), file: `${n}.jpg` }))
    const here: string[] = []
    for (const one of sources) here.push(JSON.stringify(await measure(one, GROUPS)))
    const there = await usual.measure(sources, GROUPS, { signal: never })
    expect(there.map((one) => JSON.stringify(one))).toEqual(here)
  } finally {
    await rm(folder, { recursive: true })
  }
})

test('a file that takes too long is a failed row, and the next is measured', async () => {
  const hasty = open({ seconds: 0.001, memoryMiB: 8 })
  const fault = { kind: 'not-measured', detail: 'took longer than 0.001 s' }
  // Two in one portion: each is tried alone before it is told.
  const other = { ...source, file: 'web/other.jpg' }
  expect(await hasty.measure([source, other], GROUPS, { signal: never })).toMatchObject([
    { file: source.file, fault },
    { file: other.file, fault },
  ])
  expect(await usual.measure([source], ['file'], { signal: never })).toMatchObject([{ fault: null }])
})

test('a worker that runs out of memory makes a failed row, and another takes its place', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'memory-'))
  const empty = join(folder, 'empty.jpg')
  await writeFile(empty, '')
  try {
    const small = open({ seconds: 60, memoryMiB: 8 })
    const fault = { kind: 'not-measured', detail: 'needed more than 8 MiB of memory' }
    expect(await small.measure([source], GROUPS, { signal: never })).toMatchObject([{ fault }])
    const next = await small.measure([{ path: empty, file: 'empty.jpg' }], ['file'], { signal: never })
    expect(next).toMatchObject([{ fault: { kind: 'empty' } }])
  } finally {
    await rm(folder, { recursive: true })
  }
})

test('what takes more than its share to decode is postponed, and the others are not', async () => {
  const cut = { path: join(process.cwd(), 'package.json'), file: 'package.jpg' }
  const [large, other] = await usual.measure([source, cut], GROUPS, { signal: never, share: 1000 })
  // 600 x 600 px of a plain JPEG, three bytes each.
  expect(large).toEqual({ postponed: 600 * 600 * 3 })
  expect(other).toMatchObject({ fault: { kind: 'not-a-picture' } })
})

test('what was postponed is measured when all else is, and told in its place', async () => {
  const { measureAll } = await builtModule<typeof import('../../src/pool/measure-all.ts')>(
    await built(),
    'pool/measure-all.js',
  )
  const sources = [source, { ...source, file: 'web/again.jpg' }]
  const means = { signal: never, progress: () => {}, workers: 2, cache: null }
  const measured = await measureAll(sources, ['decode'], { ...means, budget: 1000 })
  expect(measured).toEqual(await measureAll(sources, ['decode'], { ...means, workers: 0 }))
  expect(measured.map(({ intact }) => intact)).toEqual([true, true])
})

test('a stop is heeded', async () => {
  const stop = new AbortController()
  const running = usual.measure([source], GROUPS, { signal: stop.signal })
  stop.abort(new Error('stopped by the user'))
  await expect(running).rejects.toThrow('stopped by the user')
})

test('workers that end before they have something to measure are told to whoever measures', async () => {
  const dist = await built()
  // Beside the build, so that packages are found.
  const broken = await mkdtemp(join(dirname(dist), 'broken-'))
  try {
    await cp(join(dist, 'src'), join(broken, 'src'), { recursive: true })
    await writeFile(join(broken, 'package.json'), '{"type":"module"}')
    await writeFile(join(broken, 'src', 'pool', 'measuring-worker.js'), "throw new Error('no memory')")
    const module = await builtModule<{ Workers: typeof Workers }>(broken, 'pool/workers.js')
    const workers = new module.Workers(2)
    opened.push(workers)
    for (let n = 0; n < 3; n++) {
      await expect(workers.measure([source], ['file'], { signal: never })).rejects.toThrow('no memory')
      await setTimeout(100)
    }
  } finally {
    await rm(broken, { recursive: true })
  }
})
