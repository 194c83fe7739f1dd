import { setFlagsFromString } from 'node:v8'
import type { Measurements } from '../measure/schema/measurements.ts'

// V8's own is 10 to 300, by what a collection was worth.
const GROWING_PERCENT = 300
// What waits to be collected of pictures of more pixels than this fills a machine's memory: twice what is in use.
const LARGE_PX = 40_000_000

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

/** From a large picture on, garbage is collected as usual. */
export function collectAfter({ widthPx, heightPx }: Measurements): void {
  if ((widthPx ?? 0) * (heightPx ?? 0) > LARGE_PX) collectAsUsual()
}
