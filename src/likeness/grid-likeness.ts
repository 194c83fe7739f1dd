import type { ByteGrid, Grids, HeldGrid, PlaceWindow } from '../kernels/grids/grids.ts'
import { type JointSums, jointSumsOfBytes } from '../kernels/grids/joint-sums.ts'

/** How alike two aligned grids are: 1 the same, 0 nothing in common, towards -1 opposites. */
export interface Likeness {
  /** Correlation of all cells that both have. */
  readonly whole: number
  /** Likeness of the hundredth part of the places that are least alike. */
  readonly local: number
}

/** The same; what is local takes as long as all the rest, and is found when asked for. */
export interface LazyLikeness {
  readonly whole: number
  readonly local: () => number
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
const SIGMAS = [0.4, 0.6, 0.8, 1, 1.3, 1.6]

/**
 * How much less or more is tried then, one after the other, sigmas in cells.
 * @choice half of what lies between two of those above, and half of that each time: two that correlate as highly differ by 0.03 in local likeness
 */
export const FINER = [0.1, 0.05, 0.025]

/** Product of two standard deviations below which there is nothing to correlate, codes². @choice far below one code in one cell. */
const FLAT = 1e-6

/** How far a blur reaches, sigmas. @choice no source: what is beyond weighs under a twentieth. */
const BLUR_REACH = 2.5

/**
 * Of two grids, the second aligned with the first.
 * @param finer how much less or more blur is tried around the best: {@link FINER}, or nothing where many pairs are compared and limits leave room
 */
export function likeness(
  grids: Grids,
  first: HeldGrid,
  second: HeldGrid,
  finer: readonly number[],
): LazyLikeness {
  const [a, b] = equallySharp(grids, first, second, finer)
  const { whole, spreadA, spreadB } = jointStats(grids.jointSums(a, b))
  const gains = [CONTRAST / (spreadA || 1), CONTRAST / (spreadB || 1)] as const
  let known: number | null = null
  return {
    whole,
    local() {
      known ??= grids.placeLikeness([a, b], gains, WINDOW, C2, WORST) ?? -1
      return known
    },
  }
}

/** Correlation of the cells that both grids have; 0 when there are hardly any. */
export function byteCorrelation(first: ByteGrid, second: ByteGrid): number {
  return jointStats(jointSumsOfBytes(first.luma, second.luma)).whole
}

interface JointStats {
  /** Correlation. */
  readonly whole: number
  readonly spreadA: number
  readonly spreadB: number
}

function jointStats({ count: n, sumA, sumB, squaresA, squaresB, products }: JointSums): JointStats {
  if (n < 2) return { whole: 0, spreadA: 0, spreadB: 0 }
  const spreadA = Math.sqrt(Math.max(0, squaresA / n - (sumA / n) ** 2))
  const spreadB = Math.sqrt(Math.max(0, squaresB / n - (sumB / n) ** 2))
  const both = spreadA * spreadB
  const whole = both < FLAT ? 0 : (products / n - (sumA / n) * (sumB / n)) / both
  return { whole, spreadA, spreadB }
}

/** Both grids, the sharper one blurred as far as makes it most like the other. */
function equallySharp(
  grids: Grids,
  a: HeldGrid,
  b: HeldGrid,
  finer: readonly number[],
): readonly [HeldGrid, HeldGrid] {
  const aIsSharper = detail(grids, a, b) > detail(grids, b, a)
  const [sharp, soft] = aIsSharper ? [a, b] : [b, a]
  let best = { sigma: 0, grid: sharp, likeness: grids.correlation(sharp, soft) }
  const isBetter = (sigma: number): boolean => {
    const reach = Math.ceil(BLUR_REACH * sigma)
    const grid = grids.blurred(sharp, Float32Array.from(bell(sigma, reach)), reach)
    const likeness = grids.correlation(grid, soft)
    if (likeness <= best.likeness) return false
    best = { sigma, grid, likeness }
    return true
  }
  SIGMAS.every(isBetter)
  if (best.sigma > 0) for (const step of finer) isBetter(best.sigma - step) || isBetter(best.sigma + step)
  return aIsSharper ? [best.grid, soft] : [soft, best.grid]
}

/** Mean squared step between neighbors over the cells that both grids have, by the grid's own contrast. */
function detail(grids: Grids, grid: HeldGrid, other: HeldGrid): number {
  return grids.squaredSteps(grid, other) / (jointStats(grids.jointSums(grid, other)).spreadA ** 2 || 1)
}

function bell(sigma: number, reach: number): Float64Array {
  return Float64Array.from({ length: 2 * reach + 1 }, (_, i) =>
    Math.exp(-((i - reach) ** 2) / (2 * sigma ** 2)),
  )
}

const WINDOW: PlaceWindow = { weights: ofOne(bell(SIGMA, REACH)), reach: REACH }

/** The same, with a sum of 1. */
function ofOne(weights: Float64Array): Float64Array {
  const sum = weights.reduce((all, weight) => all + weight, 0)
  return weights.map((weight) => weight / sum)
}
