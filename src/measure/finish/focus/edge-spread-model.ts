import type { Triple } from '../../../numbers/matrix3.ts'

/**
 * The power spectrum that sharp edges at random distances leave when a Gaussian of variance s² blurs them, grain is added
 * and the sum is rounded to whole codes:
 *
 *     P(f) = A (f² + f0²)^(-3/2) exp(-4 pi² s² f²) + N + R
 *
 * Edges at random distances have a covariance of exp(-r / d), whose two-dimensional Fourier transform is the first factor,
 * with f0 = 1 / (2 pi d) (Debye, Anderson and Brumberger, Journal of Applied Physics 28, 1957; Gradshteyn and Ryzhik
 * 6.623.2). The exponential is the squared transform of the Gaussian, which is the derivative of the edge-spread function.
 * N is the power of white noise. The parameters are log A, log s² and log N, so that none gets negative.
 */
export type EdgeSpread = Triple

/** What the model needs of a frequency f. */
export interface ModelFrequency {
  /** Logarithm of the edges' own spectrum, (f² + f0²)^(-3/2). */
  readonly edges: number
  /** The Gaussian's exponent by unit of variance, 4 pi² f². */
  readonly decay: number
}

/** The logarithm of the power that the model has, and its derivatives with respect to the parameters. */
export interface ModelPower {
  readonly log: number
  readonly derivatives: Triple
}

/**
 * Corner frequency f0, cycles per px at 240 px between the eyes: edges around an eye are 5 px apart on average; it scales with the file.
 * @tuned on drawn eyes: a third more or less moves readings by up to a twentieth
 */
const CORNER = 0.03
/**
 * Power of the noise that rounding to whole codes adds, R, codes²: 1/12 in each channel, weighted as in luma, since
 * 0.2126² + 0.7152² + 0.0722² = 0.562.
 * @source Bennett, Bell System Technical Journal 27, 1948
 */
export const ROUNDING = 0.562 / 12
/**
 * Least spread, px: that of a pixel which averages over its own area.
 * @source standard deviation of the uniform distribution, the root of 1/12
 */
export const FINEST_PX = 12 ** -0.5

/**
 * The parts of the model that its parameters don't change.
 * @param frequency cycles per px
 * @param scale pixels of the file per pixel at 240 px between the eyes
 * @source the two transforms of {@link EdgeSpread}
 */
export function modelFrequency(frequency: number, scale: number): ModelFrequency {
  return {
    edges: -1.5 * Math.log(frequency ** 2 + (CORNER / scale) ** 2),
    decay: 4 * Math.PI ** 2 * frequency ** 2,
  }
}

/** What the model has at a frequency. @param variance and grain: what {@link EdgeSpread} holds the logarithms of */
export function modelPower(
  { edges: spectrum, decay }: ModelFrequency,
  logAmplitude: number,
  variance: number,
  grain: number,
): ModelPower {
  const edges = Math.exp(logAmplitude + spectrum - decay * variance)
  const power = edges + grain + ROUNDING
  return {
    log: Math.log(power),
    derivatives: [edges / power, (-edges * variance * decay) / power, grain / power],
  }
}
