import { type FitLimits, fittedSurface } from '../kernels/surfaces.ts'
import { MAD_TO_SIGMA } from '../numbers/robust.ts'

/** Coefficients of z = c0 + c1 x + c2 y + c3 x^2 + c4 xy + c5 y^2, with x and y in -1..1 over the frame. */
export type Surface = Float64Array

/** Most rounds of a fit. @choice no source: the scale settles sooner, and a fit that doesn't is left as it is. */
const ITERATIONS = 12

/** A scale that moves less than this from one round to the next has settled, share of the scale. @choice no source: half a percent changes no pixel's side. */
const SETTLED = 0.005

/** What is added to the diagonal of the normal equations, share of the total weight. @choice no source: too little to bend a fit that has data. */
const RIDGE = 1e-4

/** Pivot below which a fit has no solution. @choice far below RIDGE times any weight, no source. */
const SINGULAR = 1e-12

/**
 * Tukey's biweight at 95 % efficiency for normal errors, in standard deviations.
 * @source Huber and Ronchetti, Robust Statistics, 2nd ed. (from memory)
 */
const TUKEY = 4.685

const LIMITS: FitLimits = {
  toSigma: MAD_TO_SIGMA,
  tukey: TUKEY,
  rounds: ITERATIONS,
  settled: SETTLED,
  ridge: RIDGE,
  singular: SINGULAR,
}

export interface Fit {
  readonly surface: Surface
  /** Robust standard deviation of the residuals, in the unit of z. */
  readonly sigma: number
  /** Share of the samples that the fit keeps (weight above zero), 0..1. */
  readonly kept: number
}

/**
 * Fits a quadratic surface to samples by iteratively re-weighted least squares (Tukey's biweight), so that
 * hair, shoulders or a stand among the samples do not bend it.
 * @param floor smallest sigma assumed, in the unit of z; keeps a noiseless picture from rejecting its own gradient
 */
export function fitSurface(xs: Float32Array, ys: Float32Array, zs: Float32Array, floor: number): Fit {
  const { surface, sigma, kept } = fittedSurface([xs, ys, zs], floor, LIMITS)
  return { surface, sigma, kept: xs.length === 0 ? 0 : kept / xs.length }
}

export function surfaceAt(surface: Surface, x: number, y: number): number {
  const c0 = surface[0] as number
  const c1 = surface[1] as number
  const c2 = surface[2] as number
  const c3 = surface[3] as number
  const c4 = surface[4] as number
  const c5 = surface[5] as number
  return c0 + c1 * x + c2 * y + c3 * x * x + c4 * x * y + c5 * y * y
}
