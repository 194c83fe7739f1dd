import type { LumaGrid } from './luma-grid.ts'

/** How alike two aligned grids are: 1 the same, 0 nothing in common, towards -1 opposites. */
export interface Likeness {
  /** Correlation of all cells that both have. */
  readonly whole: number
  /** Likeness of the hundredth part of the places that are least alike. */
  readonly local: number
  /** Share of the cells that both have. */
  readonly overlap: number
}

/**
 * Contrast of both before their structure is compared, standard deviation in codes: a brighter or harder copy is still a copy.
 * @choice about that of a face, no source.
 */
const CONTRAST = 40

/** Sigma of the window of SSIM, cells. @choice a little wider than the 1.5 px of Wang, Bovik, Sheikh and Simoncelli (2004), since cells are coarse. */
const SIGMA = 1.8

/** How far the window reaches, cells. @choice a little over two sigmas, no source: what is beyond weighs under a tenth. */
const REACH = 4

/** What steadies the structure and contrast term of SSIM. @source Wang, Bovik, Sheikh and Simoncelli, IEEE Trans. Image Processing 13(4), 2004: (K2 L)^2 with K2 = 0.03. */
const C2 = (0.03 * 255) ** 2

/** Share of the places that may be less alike than what is told. @choice the hundredth worst, no source: the worst alone may be a speck. */
const WORST = 0.01

/** How far a copy that was made smaller may be blurred, sigmas in cells. @choice no source: a copy that was made smaller is blurred by so much at most. */
const BLURS = [0.4, 0.6, 0.8, 1, 1.3, 1.6]

/** Product of two standard deviations below which there is nothing to correlate, codes². @choice far below one code in one cell. */
const FLAT = 1e-6

/** How far a blur reaches, sigmas. @choice no source: what is beyond weighs under a twentieth. */
const BLUR_REACH = 2.5

export function likeness(first: LumaGrid, second: LumaGrid): Likeness {
  const [a, b] = equallySharp(first, second)
  const stats = jointStats(a, b)
  const { whole, overlap, spreadA, spreadB } = stats
  const places = localLikeness(a, b, CONTRAST / (spreadA || 1), CONTRAST / (spreadB || 1))
  places.sort()
  return { whole, overlap, local: places[Math.floor(places.length * WORST)] ?? -1 }
}

/** Correlation of the cells that both have; 0 when there are hardly any. */
export function correlation(first: LumaGrid, second: LumaGrid): number {
  return jointStats(first, second).whole
}

interface JointStats {
  readonly whole: number
  readonly overlap: number
  readonly spreadA: number
  readonly spreadB: number
}

function jointStats({ luma: p }: LumaGrid, { luma: q }: LumaGrid): JointStats {
  let n = 0
  let sumA = 0
  let sumB = 0
  let squaresA = 0
  let squaresB = 0
  let products = 0
  for (let i = 0; i < p.length; i++) {
    const a = p[i] as number
    const b = q[i] as number
    if (a === 0 || b === 0) continue
    n++
    sumA += a
    sumB += b
    squaresA += a * a
    squaresB += b * b
    products += a * b
  }
  if (n < 2) return { whole: 0, overlap: 0, spreadA: 0, spreadB: 0 }
  const spreadA = Math.sqrt(Math.max(0, squaresA / n - (sumA / n) ** 2))
  const spreadB = Math.sqrt(Math.max(0, squaresB / n - (sumB / n) ** 2))
  const both = spreadA * spreadB
  const whole = both < FLAT ? 0 : (products / n - (sumA / n) * (sumB / n)) / both
  return { whole, overlap: n / p.length, spreadA, spreadB }
}

/** Both grids, the sharper one blurred as far as makes it most like the other. */
function equallySharp(a: LumaGrid, b: LumaGrid): readonly [LumaGrid, LumaGrid] {
  const aIsSharper = detail(a, b) > detail(b, a)
  const [sharp, soft] = aIsSharper ? [a, b] : [b, a]
  let best = sharp
  let most = correlation(sharp, soft)
  for (const sigma of BLURS) {
    const tried = blurred(sharp, sigma)
    const likeness = correlation(tried, soft)
    if (likeness <= most) break
    best = tried
    most = likeness
  }
  return aIsSharper ? [best, soft] : [soft, best]
}

/** Mean squared step between neighbors over the cells that both grids have, by the grid's own contrast. */
function detail(grid: LumaGrid, other: LumaGrid): number {
  const { columns, luma } = grid
  let sum = 0
  for (let i = columns; i < luma.length; i++) {
    const here = luma[i] as number
    const left = luma[i - 1] as number
    const above = luma[i - columns] as number
    if (here === 0 || left === 0 || above === 0 || other.luma[i] === 0 || i % columns === 0) continue
    sum += (here - left) ** 2 + (here - above) ** 2
  }
  return sum / (jointStats(grid, other).spreadA ** 2 || 1)
}

function blurred(grid: LumaGrid, sigma: number): LumaGrid {
  const reach = Math.ceil(BLUR_REACH * sigma)
  const weights = Array.from({ length: 2 * reach + 1 }, (_, i) =>
    Math.exp(-((i - reach) ** 2) / (2 * sigma ** 2)),
  )
  const across = swept(grid, weights, reach, 1, 0)
  return swept(across, weights, reach, 0, 1)
}

function swept(
  { columns, rows, luma }: LumaGrid,
  weights: readonly number[],
  reach: number,
  stepX: 0 | 1,
  stepY: 0 | 1,
): LumaGrid {
  const out = new Float32Array(luma.length)
  for (let y = 0; y < rows; y++) {
    for (let x = 0; x < columns; x++) {
      if (luma[y * columns + x] === 0) continue
      let sum = 0
      let total = 0
      for (let k = -reach; k <= reach; k++) {
        const px = x + k * stepX
        const py = y + k * stepY
        if (px < 0 || py < 0 || px >= columns || py >= rows) continue
        const value = luma[py * columns + px] as number
        if (value === 0) continue
        const weight = weights[k + reach] as number
        sum += weight * value
        total += weight
      }
      out[y * columns + x] = sum / total
    }
  }
  return { columns, rows, luma: out }
}

const WINDOW = Array.from({ length: (2 * REACH + 1) ** 2 }, (_, i) => {
  const dx = (i % (2 * REACH + 1)) - REACH
  const dy = Math.floor(i / (2 * REACH + 1)) - REACH
  return { dx, dy, weight: Math.exp(-(dx * dx + dy * dy) / (2 * SIGMA ** 2)) }
})
const WINDOW_SUM = WINDOW.reduce((sum, { weight }) => sum + weight, 0)

/** For each place whose whole window both grids have. */
function localLikeness(
  { columns, rows, luma: p }: LumaGrid,
  { luma: q }: LumaGrid,
  gainA: number,
  gainB: number,
) {
  const values: number[] = []
  for (let y = REACH; y < rows - REACH; y++) {
    for (let x = REACH; x < columns - REACH; x++) {
      const value = placeLikeness(p, q, y * columns + x, columns, gainA, gainB)
      if (value !== null) values.push(value)
    }
  }
  return Float64Array.from(values)
}

function placeLikeness(
  p: Float32Array,
  q: Float32Array,
  at: number,
  columns: number,
  gainA: number,
  gainB: number,
) {
  let meanA = 0
  let meanB = 0
  let squaresA = 0
  let squaresB = 0
  let products = 0
  for (const { dx, dy, weight } of WINDOW) {
    const i = at + dy * columns + dx
    const a = (p[i] as number) * gainA
    const b = (q[i] as number) * gainB
    if (a === 0 || b === 0) return null
    meanA += weight * a
    meanB += weight * b
    squaresA += weight * a * a
    squaresB += weight * b * b
    products += weight * a * b
  }
  meanA /= WINDOW_SUM
  meanB /= WINDOW_SUM
  const varianceA = squaresA / WINDOW_SUM - meanA * meanA
  const varianceB = squaresB / WINDOW_SUM - meanB * meanB
  const covariance = products / WINDOW_SUM - meanA * meanB
  return (2 * covariance + C2) / (varianceA + varianceB + C2)
}
