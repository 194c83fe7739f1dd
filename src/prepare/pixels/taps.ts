import type { Taps } from '../../kernels/resampling.ts'

/**
 * The kernel that pictures are made smaller with: Magic Kernel Sharp 2021. @param x distance from its middle in px of the smaller grid
 * @source J. Costella, "The magic kernel" (2021), as libvips has it.
 * @tuned on a zone plate and an edge made a quarter as large (tests/prepare/pixels/resample.test.ts): in the codes' own space patterns
 * finer than the grid turn darker by 0.056 of full light with any kernel, in light by none; there this kernel errs by 0.011 below the grid's limit
 * and, unbounded, undershoots a dark edge by 5 codes, Lanczos with 3 lobes by 0.004 and 8, with 2 lobes by 0.020 and 4.5.
 */
function kernel(x: number): number {
  const r = Math.abs(x)
  if (r <= 0.5) return 577 / 576 - (239 / 144) * r * r
  if (r <= 1.5) return (35 / 36) * (r - 1) * (r - 239 / 140)
  if (r <= 2.5) return (1 / 6) * (r - 2) * (65 / 24 - r)
  if (r <= 3.5) return (1 / 36) * (r - 3) * (r - 15 / 4)
  return r <= REACH ? (-1 / 288) * (r - REACH) ** 2 : 0
}
const REACH = 4.5

/**
 * How near the pixels lie than which the result is no darker, px of the smaller grid: a sharp edge rings beyond 1 px, where those nearer than 1 px
 * are all on one side of it. Overshoot stays: as light it is as large, but few codes, and it keeps what is fine as clear as it was.
 * @choice so that what the grid can hold, of 2 px a cycle and more, is bounded by nothing
 */
const NEAR = 1

/**
 * Pixels of a cell of the grid, which count alike: half of a px of the smaller grid at most.
 * @choice as libvips's resize does by default; unbounded, a dark edge undershoots by 5 codes so, by 6 without cells.
 */
function cellFor(scale: number): number {
  return Math.max(Math.floor(scale / 2), 1)
}

/** The weights that make an axis of `from` pixels one of `to`; beyond the border the outermost pixels go on. */
export function tapsFor(from: number, to: number): Taps {
  if (from === to) return unchanged(from)
  const scale = Math.max(from / to, 1)
  const cell = cellFor(scale)
  const reach = REACH * scale + (cell - 1) / 2
  const count = Math.min(Math.ceil(2 * reach), from)
  const starts = new Int32Array(to)
  const near = Math.min(Math.max(Math.floor(2 * NEAR * scale), 1), count)
  const nears = new Int32Array(to)
  const weights = new Float32Array(to * count)
  for (let n = 0; n < to; n++) {
    const middle = ((n + 0.5) * from) / to - 0.5
    const [first, last] = [Math.floor(middle - reach) + 1, Math.ceil(middle + reach) - 1]
    const weightOf = (at: number) => kernel(((Math.floor(at / cell) + 0.5) * cell - 0.5 - middle) / scale)
    const start = Math.min(Math.max(first, 0), from - count)
    starts[n] = start
    nears[n] = Math.min(Math.max(Math.round(middle - (near - 1) / 2), start), start + count - near)
    let sum = 0
    for (let at = first; at <= last; at++) sum += weightOf(at)
    for (let at = first; at <= last; at++) {
      const place = n * count + Math.min(Math.max(at, 0), from - 1) - start
      weights[place] = (weights[place] as number) + weightOf(at) / sum
    }
  }
  return { starts, weights, count, nears, near, from }
}

function unchanged(from: number): Taps {
  const starts = Int32Array.from({ length: from }, (_, n) => n)
  return { starts, weights: new Float32Array(from).fill(1), count: 1, nears: starts, near: 0, from }
}
