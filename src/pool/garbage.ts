import { setImmediate } from 'node:timers/promises'
import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import type { Measurements } from '../measure/schema/measurements.ts'

// V8's own is 10 to 300, by what a collection was worth.
const GROWING_PERCENT = 300
// Pixels that wait to be collected, in bytes of a worker: a portrait of 24 million takes half of it.
const MOST_WAITING = 128 * 1024 ** 2
const BYTES_A_PIXEL = 3

/**
 * Lets heaps grow to four times what lived after the last collection before garbage is collected again. Pixels count as
 * growth although they lie outside the heap: a worker, whose heap is small, would collect twice for each portrait, which
 * is an eighth of the processor time of measuring it. Holds for all threads of the process.
 */
export function collectSeldom(): void {
  setFlagsFromString(`--heap-growing-percent=${GROWING_PERCENT}`)
}

/** As V8 does it by itself. */
export function collectAsUsual(): void {
  setFlagsFromString('--heap-growing-percent=0')
}

/** Collects a thread's garbage by the pixels that it has seen, for V8 knows of no limit outside its heap. */
export class Garbage {
  readonly #collect: () => void
  #waiting = 0

  /** @param collect collects this thread's garbage */
  constructor(collect: () => void = collector()) {
    this.#collect = collect
  }

  /** To be called when a file was measured and nothing holds its pixels any more. */
  async add({
    widthPx,
    heightPx,
    intact,
  }: Pick<Measurements, 'widthPx' | 'heightPx' | 'intact'>): Promise<void> {
    if (intact === null) return
    this.#waiting += (widthPx ?? 0) * (heightPx ?? 0) * BYTES_A_PIXEL
    if (this.#waiting <= MOST_WAITING) return
    this.#waiting = 0
    // Memory outside the heap is swept beside this thread, which the next collection waits for, and given back in a turn
    // of its own.
    for (let n = 0; n < 2; n++) {
      this.#collect()
      await setImmediate()
    }
  }
}

function collector(): () => void {
  setFlagsFromString('--expose-gc')
  return runInNewContext('gc') as () => void
}
