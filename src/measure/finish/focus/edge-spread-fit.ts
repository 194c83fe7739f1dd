import { levenbergMarquardt, type Minimum } from '../../../numbers/levenberg-marquardt.ts'
import { NormalEquations } from '../../../numbers/normal-equations.ts'
import {
  type EdgeSpread,
  FINEST_PX,
  type ModelFrequency,
  modelFrequency,
  modelPower,
  ROUNDING,
} from './edge-spread-model.ts'
import type { Ring } from './ring-spectrum.ts'

export interface EdgeSpreadFit {
  /** Variance of the Gaussian that blurs the edges, px². */
  readonly variance: number
  /** Standard error of the variance, px². */
  readonly error: number
  /** Power of grain in codes², as white noise. */
  readonly grain: number
}

/** Rings below which nothing is fitted. @choice twice the parameters */
const FEWEST_RINGS = 6
/**
 * Spread from which the fit begins, px at 240 px between the eyes: only the lowest frequencies count then.
 * @choice softer than any portrait that is looked at
 */
const START = 8
/** Rounds of weighting frequencies anew, at most. @choice half of all eyes settle after 4, nine in ten before the last */
const ROUNDS = 8
/** Change of the logarithm of the variance at which it has settled. @choice a thousandth: far below its error */
const SETTLED = 1e-3
/**
 * Exponent 4 pi² s² f² at which a frequency counts half. A lens out of focus blurs by a disc, whose power comes back in side
 * lobes beyond its first zero, where the Gaussian of the same variance has hardly any: from there on frequencies
 * carry information about grain only.
 * @source the first side lobe of a disc's transform, 2 J1(x) / x, at x = 5.136, where the exponent is x² / 4 = 6.6; rounded
 *   down
 */
const DEEP = 6
/** How steeply weights fall around DEEP. @tuned on drawn and photographed eyes: with a sharp cutoff a wide blur would have too few rings */
const STEEPNESS = 4
/** Least weight of a frequency: it still carries information about grain. @tuned on drawn and photographed eyes */
const LEAST_WEIGHT = 0.02
/**
 * Residual from which on a ring counts less, nepers (Huber).
 * @tuned on drawn and photographed eyes: about three times their scatter
 */
const FAR = 1
/** Minimum assumed scatter of spectra about the model, nepers. @tuned on drawn and photographed eyes */
const SCATTER = 0.3
/** Longest step of a parameter, nepers. @choice a factor of e, within which the model is nearly linear */
const STEP = 1
/** Start value of the grain, nepers below the quietest ring. @choice one step, so that the fit can move it either way */
const BELOW_QUIETEST = 1
/** Least power of grain that is tried, codes². @choice a hundredth of that of rounding, which hides it */
const LEAST_GRAIN = ROUNDING / 100

/**
 * Fits the edge-spread model to a power spectrum: least squares in the logarithm of the power, in which spectra scatter
 * evenly; rings far off count less (Huber, Annals of Mathematical Statistics 35, 1964).
 * @param scale pixels of the file per pixel at 240 px between the eyes
 * @returns null when there are too few rings
 */
export function fitEdgeSpread(rings: readonly Ring[], scale: number): EdgeSpreadFit | null {
  if (rings.length < FEWEST_RINGS) return null
  const samples: Sample[] = []
  for (const { frequency, power } of rings) {
    const { edges, decay } = modelFrequency(frequency, scale)
    samples.push({ edges, decay, log: Math.log(power + ROUNDING) })
  }
  const { parameters, cost, normal } = fitFromCoarse(samples, (START * scale) ** 2)
  const variance = Math.exp(parameters[1])
  const scatter = Math.max(SCATTER, Math.sqrt(cost / (samples.length - parameters.length)))
  const logError = scatter * Math.sqrt(normal.variances[1])
  return { variance, error: logError * variance, grain: Math.exp(parameters[2]) }
}

interface Sample extends ModelFrequency {
  /** Logarithm of the power that was measured. */
  readonly log: number
}

interface Weighted extends Sample {
  readonly weight: number
}

/**
 * Fits again and again until the variance settles. Each round gives little weight to frequencies that the blur found so
 * far has erased: the coarse ones count first, then finer and finer ones.
 */
function fitFromCoarse(samples: readonly Sample[], startVariance: number): Minimum {
  const [first] = samples
  const quietest = Math.min(...samples.map(({ log }) => log))
  const amplitude = first ? first.log - first.edges + first.decay * startVariance : 0
  let parameters: EdgeSpread = [amplitude, Math.log(startVariance), quietest - BELOW_QUIETEST]
  for (let round = 1; ; round++) {
    const variance = Math.exp(parameters[1])
    const weighted = weightedBy(samples, variance)
    const fit = levenbergMarquardt(
      (at) => misfit(weighted, at),
      parameters,
      STEP,
      (at) => bounded(at, quietest),
    )
    const change = Math.abs(fit.parameters[1] - parameters[1])
    if (change < SETTLED || round === ROUNDS) return fit
    parameters = fit.parameters
  }
}

function weightedBy(samples: readonly Sample[], variance: number): Weighted[] {
  const weighted: Weighted[] = []
  for (const { edges, decay, log } of samples)
    weighted.push({ edges, decay, log, weight: weightAt(decay * variance) })
  return weighted
}

/** @param depth the Gaussian's exponent at a frequency */
function weightAt(depth: number): number {
  return Math.max(LEAST_WEIGHT, 1 / (1 + (depth / DEEP) ** STEEPNESS))
}

/** No edge is finer than a pixel, and grain is no more than what the quietest ring has. */
function bounded([amplitude, variance, grain]: EdgeSpread, quietest: number): EdgeSpread {
  return [
    amplitude,
    Math.max(2 * Math.log(FINEST_PX), variance),
    Math.max(Math.log(LEAST_GRAIN), Math.min(quietest, grain)),
  ]
}

/** Huber's loss of the residuals, doubled, with the normal equations of iteratively reweighted least squares. */
function misfit(samples: readonly Weighted[], [logAmplitude, logVariance, logGrain]: EdgeSpread) {
  const variance = Math.exp(logVariance)
  const grain = Math.exp(logGrain)
  const normal = new NormalEquations()
  let cost = 0
  for (const sample of samples) {
    const { log, derivatives } = modelPower(sample, logAmplitude, variance, grain)
    const residual = sample.log - log
    const size = Math.abs(residual)
    cost += sample.weight * (size < FAR ? residual * residual : FAR * (2 * size - FAR))
    normal.add(derivatives, residual, size < FAR ? sample.weight : (sample.weight * FAR) / size)
  }
  return { cost, normal }
}
