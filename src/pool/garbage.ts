import { setImmediate } from 'node:timers/promises'
import { getHeapStatistics, setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { bytesKept } from '../kernels/recycling.ts'

// V8's own is 10 to 300, by what a collection was worth.
const GROWING_PERCENT = 300
// Bytes outside the heap of a worker that wait to be collected: the pixels of a portrait of 24 million are half of it.
const MOST_WAITING = 128 * 1024 ** 2
// Fewest bytes on the heap of a thread that only judges and tells that are worth collecting; more wait where more is in use.
const LEAST_ON_HEAP = 16 * 1024 ** 2

/**
 * Lets heaps grow to four times what lived after the last collection before garbage is collected again. Pixels count as
 * growth although they lie outside the heap: a worker, whose heap is small, would collect twice for each portrait, which
 * is an eighth of the processor time of measuring it. Holds for all threads of the process.
 */
export function collectSeldom(): void {
  // What workers ask for. Set before they start: they take code that was compiled by the same flags (scripts/package/compiled.ts).
  setFlagsFromString('--expose-gc')
  setFlagsFromString(`--heap-growing-percent=${GROWING_PERCENT}`)
}

/** As V8 does it by itself. */
export function collectAsUsual(): void {
  setFlagsFromString('--heap-growing-percent=0')
}

/** Collects what this thread has left of listing and naming files, before others take their memory. */
export function collectNow(): void {
  collector()()
}

/** Collects a thread's garbage by what it holds: outside of its heap, for which V8 knows of no limit, or on it, too. */
export class Garbage {
  readonly #held: () => number
  readonly #collect: () => void
  readonly #most: (used: number) => number
  /** What was held after the last collection, and is in use. */
  #used = 0

  /**
   * @param held bytes that this thread holds, garbage or not; by default those outside of its heap, but for the buffers that the next picture is put into:
   *   V8 compiles anew what read a picture when all is collected between two of them
   * @param collect collects this thread's garbage
   * @param most bytes that may wait to be collected beside what is in use
   */
  constructor(
    held = () => getHeapStatistics().external_memory - bytesKept(),
    collect: () => void = collector(),
    most: (used: number) => number = () => MOST_WAITING,
  ) {
    this.#held = held
    this.#collect = collect
    this.#most = most
  }

  /** For a thread without pixels, whose heap would grow as those of workers may. */
  static ofHeap(): Garbage {
    const held = () => getHeapStatistics().used_heap_size + getHeapStatistics().external_memory
    return new Garbage(held, collector(), (used) => Math.max(used, LEAST_ON_HEAP))
  }

  /** To be called when a file was measured and nothing holds its pixels any more. */
  async lookAfter(): Promise<void> {
    if (this.#held() - this.#used <= this.#most(this.#used)) return
    // Memory outside the heap is swept beside this thread, which the next collection waits for, and given back in a turn
    // of its own.
    for (let n = 0; n < 2; n++) {
      this.#collect()
      await setImmediate()
    }
    this.#used = this.#held()
  }
}

function collector(): () => void {
  setFlagsFromString('--expose-gc')
  return runInNewContext('gc') as () => void
}
