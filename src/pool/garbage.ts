import { setFlagsFromString } from 'node:v8'

// V8's own is 10 to 300, by what a collection was worth.
const GROWING_PERCENT = 300

/**
 * Lets heaps grow to four times what lived after the last collection before garbage is collected again. Pixels count as
 * growth although they lie outside the heap: a worker, whose heap is small, would collect twice for each portrait, which
 * is an eighth of the processor time of measuring it.
 */
export function collectSeldom(): void {
  setFlagsFromString(`--heap-growing-percent=${GROWING_PERCENT}`)
}

/** As V8 does it by itself. */
export function collectAsUsual(): void {
  setFlagsFromString('--heap-growing-percent=0')
}
