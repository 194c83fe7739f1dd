import { workerData } from 'node:worker_threads'
import { PairSearch } from './pair-search.ts'
import { type Done, Portions, type Shared } from './portions.ts'

const { pictures, taken, port } = workerData as Shared
const portions = new Portions(new PairSearch(pictures), taken)
for (let portion = portions.take(); portion !== null; portion = portions.take()) {
  const done: Done = { portion, pairs: portions.work(portion) }
  port.postMessage(done)
}
