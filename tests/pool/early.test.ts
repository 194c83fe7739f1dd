import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Early } from '../../src/pool/early.ts'
import type * as MeasureAll from '../../src/pool/measure-all.ts'
import { built, builtModule } from './built.ts'

const GOOD = 'examples/osprey-lane/delivery-clean/web/Nair-Priya_15388.jpg'
const sources = [{ path: join(process.cwd(), GOOD), file: 'web/Nair.jpg' }]
const means = { signal: new AbortController().signal, progress: () => {}, workers: 2, cache: null }

let early: Early
let measureAll: typeof MeasureAll.measureAll
beforeAll(async () => {
  const dist = await built()
  const { Early: EarlyOf } = await builtModule<{ Early: typeof Early }>(dist, 'pool/early.js')
  early = new EarlyOf(2, true)
  measureAll = (await builtModule<typeof MeasureAll>(dist, 'pool/measure-all.js')).measureAll
})
afterAll(() => early.close())

test('the first that measures takes the worker, and whoever comes later starts one', async () => {
  const first = await measureAll(sources, ['decode'], { ...means, early })
  expect(first).toMatchObject([{ intact: true }])
  expect(early.take()).toBeNull()
  expect(await measureAll(sources, ['decode'], { ...means, early })).toEqual(first)
})
