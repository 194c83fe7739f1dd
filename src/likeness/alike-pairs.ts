import { availableParallelism } from 'node:os'
import { extname } from 'node:path'
import { MessageChannel, receiveMessageOnPort, Worker } from 'node:worker_threads'
import { type AlikePair, PairSearch, type Pictured } from './pair-search.ts'
import { type Done, Portions, type Shared } from './portions.ts'

/** What was found among many pictures. */
export interface FoundPairs {
  /** By their first and then their second index. */
  readonly pairs: readonly AlikePair[]
  /** Indexes of pictures that can't be compared. */
  readonly unknown: readonly number[]
}

/** Pairs for which another thread is worth its start, which takes as long as some ten thousand. @choice no source */
const PAIRS_A_THREAD = 100_000

/**
 * Which pictures of two people are the same, or perhaps. Many are shared with other threads.
 * @param threads this one and others, at most
 * @param pairsAThread how many pairs another thread must be there for
 */
export function alikePairs(
  pictures: readonly Pictured[],
  threads = availableParallelism(),
  pairsAThread = PAIRS_A_THREAD,
): FoundPairs {
  const search = new PairSearch(pictures)
  const pairs = (search.rows * (search.rows - 1)) / 2
  const others = Math.min(threads - 1, Math.floor(pairs / pairsAThread))
  const portions = new Portions(search)
  const helpers = Array.from({ length: others }, () => new Helper({ pictures, taken: portions.taken }))
  const done = new Map<number, readonly AlikePair[]>()
  for (let next = portions.take(); next !== null; next = portions.take()) done.set(next, portions.work(next))
  // Nothing waits for another thread: what one has begun and not ended is done again here.
  for (let portion = 0; portion < portions.count; portion++) {
    for (const helper of helpers) for (const one of helper.received()) done.set(one.portion, one.pairs)
    if (!done.has(portion)) done.set(portion, portions.work(portion))
  }
  for (const helper of helpers) helper.end()
  const inOrder = [...done.keys()].sort((a, b) => a - b)
  return { pairs: inOrder.flatMap((portion) => done.get(portion) ?? []), unknown: search.unknown }
}

/** Another thread that takes portions. This one may be busy all the while: messages are read when asked for. */
class Helper {
  readonly #worker: Worker
  readonly #channel = new MessageChannel()

  constructor(shared: Omit<Shared, 'port'>) {
    const { port1, port2 } = this.#channel
    // The source runs as it is where Node takes types out, else as it was built.
    const file = new URL(`./pairs-worker${extname(import.meta.url)}`, import.meta.url)
    const workerData: Shared = { ...shared, port: port2 }
    this.#worker = new Worker(file, { workerData, transferList: [port2] })
    // Where no thread can be started, all is done in this one.
    this.#worker.on('error', () => {})
    this.#worker.unref()
    port1.unref()
  }

  *received(): Generator<Done> {
    for (;;) {
      const received = receiveMessageOnPort(this.#channel.port1)
      if (!received) return
      yield received.message as Done
    }
  }

  end(): void {
    this.#channel.port1.close()
    void this.#worker.terminate()
  }
}
