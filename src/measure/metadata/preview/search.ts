import { type Plane, shrink } from './plane.ts'

/** A part of a picture, in fractions of its width and height, and how well another picture fits it. */
export interface Fit {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
  /** Normalized cross-correlation, -1..1. */
  readonly score: number
}

/** Edge of the copies in which all places and sizes are tried, px; then the neighborhood of the best is, in larger ones. @choice time against the risk of missing the place, no source. */
const COARSE_EDGE = 64

/** Smallest picture that is searched for, share of the other in each direction. @choice a tighter crop has little in common with the whole; no source. */
const LEAST_SHARE = 0.3

/** Step of the sizes tried, times the size before. @choice two pixels at the coarse edge, as far as correlation carries; no source. */
const SIZE_STEP = 1.03

/** How far around the best size all sizes are tried, share of it. @choice one step of the coarse search. */
const FINE_SIZES = 0.03

/** How far around the best place all places are tried, px. @choice more than a coarse pixel is in the finer copy, no source. */
const FINE_REACH = 4

/** Smallest picture that is laid on another, px. @choice fewer pixels correlate by chance, no source. */
const LEAST_EDGE = 4

/** Least variance and norm of what is correlated; less is flat. @choice far below one code of one pixel, no source. */
const FLAT = { variance: 1e-6, norm: 1e-3 } as const

/** Where in `outer` the picture `inner` lies best, made smaller to fit. */
export function findWithin(inner: Plane, outer: Plane): Fit {
  const scale = Math.min(1, COARSE_EDGE / Math.max(outer.width, outer.height))
  const coarse = shrink(
    outer,
    Math.max(1, Math.round(outer.width * scale)),
    Math.max(1, Math.round(outer.height * scale)),
  )
  let best: Placed = { width: 0, x: 0, y: 0, score: -1 }
  for (let width = widest(inner, coarse); width >= LEAST_SHARE * widest(inner, coarse); width /= SIZE_STEP) {
    const placed = bestPlace(inner, coarse, Math.round(width), () => true)
    if (placed.score > best.score) best = placed
  }
  const up = outer.width / coarse.width
  const about = { x: best.x * up, y: best.y * up, width: best.width * up }
  const near = (x: number, y: number) =>
    Math.abs(x - about.x) <= FINE_REACH && Math.abs(y - about.y) <= FINE_REACH
  let fine: Placed = { width: 0, x: 0, y: 0, score: -1 }
  const last = Math.min(widest(inner, outer), Math.ceil(about.width * (1 + FINE_SIZES)))
  for (let width = Math.max(LEAST_EDGE, Math.floor(about.width * (1 - FINE_SIZES))); width <= last; width++) {
    const placed = bestPlace(inner, outer, width, near)
    if (placed.score > fine.score) fine = placed
  }
  return {
    x: fine.x / outer.width,
    y: fine.y / outer.height,
    width: fine.width / outer.width,
    height: heightFor(inner, fine.width) / outer.height,
    score: fine.score,
  }
}

interface Placed {
  readonly width: number
  readonly x: number
  readonly y: number
  readonly score: number
}

/** Width of the largest copy of `inner` that fits into `outer` and is no larger than `inner`. */
function widest(inner: Plane, outer: Plane): number {
  return Math.min(outer.width, inner.width, (outer.height * inner.width) / inner.height)
}

function heightFor(inner: Plane, width: number): number {
  return Math.round((width * inner.height) / inner.width)
}

function bestPlace(
  inner: Plane,
  outer: Plane,
  width: number,
  near: (x: number, y: number) => boolean,
): Placed {
  const height = Math.min(heightFor(inner, width), outer.height)
  let best: Placed = { width, x: 0, y: 0, score: -1 }
  if (width < LEAST_EDGE || height < LEAST_EDGE) return best
  const template = centered(shrink(inner, width, height).data)
  for (let y = 0; y + height <= outer.height; y++) {
    for (let x = 0; x + width <= outer.width; x++) {
      if (!near(x, y)) continue
      const score = correlate(template, width, outer, y * outer.width + x)
      if (score > best.score) best = { width, x, y, score }
    }
  }
  return best
}

interface Centered {
  /** Values less their mean. */
  readonly data: Float32Array
  /** Root of the sum of their squares. */
  readonly norm: number
}

export function centered(data: Float32Array): Centered {
  let sum = 0
  for (const value of data) sum += value
  const mean = sum / data.length
  const out = data.map((value) => value - mean)
  let squares = 0
  for (const value of out) squares += value * value
  return { data: out, norm: Math.sqrt(squares) }
}

/** Correlation of a template with the window of its size that begins at pixel `from`; 0 where either is flat. */
export function correlate(
  { data, norm }: Centered,
  width: number,
  { data: values, width: row }: Plane,
  from: number,
): number {
  let product = 0
  let sum = 0
  let squares = 0
  for (let i = 0, start = from; i < data.length; start += row) {
    for (let k = 0; k < width; k++, i++) {
      const value = values[start + k] as number
      product += (data[i] as number) * value
      sum += value
      squares += value * value
    }
  }
  const variance = squares - (sum * sum) / data.length
  return variance > FLAT.variance && norm > FLAT.norm ? product / (norm * Math.sqrt(variance)) : 0
}
