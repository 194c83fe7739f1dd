import { withKernels } from './with-kernels.ts'

const FLOAT = Float32Array.BYTES_PER_ELEMENT
/** Values of a vector. */
const LANES = 4

/** A picture of real values, row by row. */
export interface Values {
  readonly data: Float32Array
  readonly width: number
  readonly height: number
}

/** What a transform looks at: two windows, and how many values across and down the picture is filled up to, powers of two. */
export interface Window {
  readonly across: Float32Array
  readonly down: Float32Array
  readonly columns: number
  readonly rows: number
}

/**
 * Sums of |F|² over rings of frequencies of the windowed picture without its mean, as the window weighs it, in single precision; F as in
 * [the discrete Fourier transform](https://mathworld.wolfram.com/DiscreteFourierTransform.html).
 * @param ringAt ring of the frequencies u / columns across and v / rows down, at u * (rows / 2 + 1) + v; from `rings` on, none
 */
export function ringPowers(
  { data, width, height }: Values,
  { across, down, columns, rows }: Window,
  ringAt: Uint8Array,
  rings: number,
): Float64Array {
  return withKernels((kernels, memory) => {
    const vector = LANES * FLOAT
    const [re, im] = [
      memory.room(vector * Math.max(columns, rows)),
      memory.room(vector * Math.max(columns, rows)),
    ]
    const plane = FLOAT * (columns / 2 + LANES) * (Math.ceil(height / (2 * LANES)) * 2 * LANES)
    const [planeRe, planeIm] = [memory.room(plane), memory.room(plane)]
    const picture = memory.put(data)
    const [atColumns, atRows] = [memory.put(across), memory.put(down)]
    const mean = kernels.windowed(picture, width, height, atColumns, atRows) / (total(across) * total(down))
    const [ofColumns, ofRows] = [tablesOf(columns), tablesOf(rows)]
    kernels.transformRows(
      picture,
      width,
      height,
      atColumns,
      atRows,
      mean,
      columns,
      memory.put(ofColumns.order),
      memory.put(ofColumns.roots),
      re,
      im,
      planeRe,
      planeIm,
    )
    const powers = memory.room(Float64Array.BYTES_PER_ELEMENT * (rings + 1))
    kernels.powerInRings(
      planeRe,
      planeIm,
      height,
      columns,
      rows,
      memory.put(ofRows.order),
      memory.put(ofRows.roots),
      re,
      im,
      memory.put(ringAt),
      rings,
      powers,
    )
    return memory.doubles(powers, rings)
  })
}

function total(window: Float32Array): number {
  let sum = 0
  for (const weight of window) sum += weight
  return sum
}

interface Tables {
  /** Indexes read backwards in binary. */
  readonly order: Int32Array
  /** cos, then -sin of 2 pi k / count. */
  readonly roots: Float32Array
}

// Sizes are powers of two, so there are few.
const known = new Map<number, Tables>()

function tablesOf(count: number): Tables {
  const kept = known.get(count)
  if (kept) return kept
  const bits = Math.log2(count)
  const order = Int32Array.from({ length: count }, (_, i) => reversed(i, bits))
  const angles = Float64Array.from({ length: count / 2 }, (_, k) => (2 * Math.PI * k) / count)
  const roots = Float32Array.from([...angles.map(Math.cos), ...angles.map((angle) => -Math.sin(angle))])
  const made = { order, roots }
  known.set(count, made)
  return made
}

function reversed(index: number, bits: number): number {
  let out = 0
  for (let bit = 0; bit < bits; bit++) if (index & (1 << bit)) out |= 1 << (bits - 1 - bit)
  return out
}
