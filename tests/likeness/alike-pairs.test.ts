import { MessageChannel, Worker } from 'node:worker_threads'
import { beforeAll, expect, test } from 'vitest'
import { alikePairs } from '../../src/likeness/alike-pairs.ts'
import { PairSearch, type Pictured } from '../../src/likeness/pair-search.ts'
import { type Done, Portions, type Shared } from '../../src/likeness/portions.ts'
import { built, builtModule } from '../pool/built.ts'
import { GOOD } from '../rules/judging/cases.ts'
import { waves } from './waves.ts'

function pictured(
  seed: number,
  person: string | null,
  changes: Partial<Pictured> & { lighter?: number } = {},
): Pictured {
  const { lighter = 0, ...rest } = changes
  const of = (kind: number, columns: number, rows: number) => waves(10 * seed + kind, columns, rows, lighter)
  const signature = { face: of(1, 44, 52), head: of(2, 22, 24), frame: of(3, 26, 32) }
  return { signature, face: GOOD.face ?? null, person, content: null, ...rest }
}

// Number 3 again at 7, lighter; 5 again for the same person, and once more with the same bytes; 2 again, turned away; and one unmeasured.
const PICTURES: readonly Pictured[] = [
  ...Array.from({ length: 7 }, (_, k) => pictured(k + 1, `Sitter ${k}`, { content: `bytes ${k}` })),
  pictured(4, 'Another', { lighter: 5 }),
  pictured(6, 'Sitter 5'),
  pictured(6, 'Third', { content: 'bytes 5' }),
  pictured(3, null, { face: GOOD.face ? { ...GOOD.face, turnDeg: 30 } : null }),
  pictured(1, 'Unmeasured', { signature: null }),
  ...Array.from({ length: 12 }, (_, k) => pictured(k + 101, `Extra ${k}`)),
]
const ALIKE = [
  { first: 2, second: 10, sameness: 'same', isMirrored: false },
  { first: 3, second: 7, sameness: 'same', isMirrored: false },
  { first: 8, second: 9, sameness: 'same', isMirrored: false },
]

test('pictures of two people that are the same, but for files of the same bytes, in order', () => {
  expect(alikePairs(PICTURES)).toEqual({ pairs: ALIKE, unknown: [11] })
  expect(alikePairs([])).toEqual({ pairs: [], unknown: [] })
})

let threaded: typeof alikePairs
let folder: string
beforeAll(async () => {
  folder = await built()
  threaded = (await builtModule<{ alikePairs: typeof alikePairs }>(folder, 'likeness/alike-pairs.js'))
    .alikePairs
})

test('shared with other threads, whether they get to anything or not', () => {
  for (const threads of [2, 4]) expect(threaded(PICTURES, threads, 1).pairs).toEqual(ALIKE)
  // Node 20 can't start a thread of source: all is done here. Later ones can.
  expect(alikePairs(PICTURES, 3, 1).pairs).toEqual(ALIKE)
})

test('a thread takes what no other has taken, and tells what it has done', async () => {
  const portions = new Portions(new PairSearch(PICTURES))
  expect(portions.take()).toBe(0)
  const { port1, port2 } = new MessageChannel()
  const workerData: Shared = { pictures: PICTURES, taken: portions.taken, port: port2 }
  const told: Done[] = []
  port1.on('message', (done: Done) => told.push(done))
  const worker = new Worker(`${folder}/src/likeness/pairs-worker.js`, { workerData, transferList: [port2] })
  await new Promise((resolve, reject) => worker.on('exit', resolve).on('error', reject))
  await new Promise(setImmediate)
  port1.close()
  expect(told.map(({ portion }) => portion)).toEqual([1, 2])
  expect([...portions.work(0), ...told.flatMap(({ pairs }) => pairs)]).toEqual(ALIKE)
  expect(portions.take()).toBeNull()
})
