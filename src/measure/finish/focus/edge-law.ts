import { dampedStep, emptyNormal, type Normal, varianceOfSecond } from '../../../numbers/normal-equations.ts'
import type { Ring } from './ring-spectrum.ts'

export interface LawFit {
  /** Variance of the Gaussian that blurs the edges, px². */
  readonly variance: number
  /** Standard error of the variance, px². */
  readonly error: number
  /** Power of grain in codes², as white noise. */
  readonly grain: number
}

// Edges about an eye follow each other, on average, after 1 / (2 pi 0.03) = 5 px at an inter-eye distance of 240 px. Found
// on drawn eyes; a third more or less moves readings by up to a twentieth.
const CORNER = 0.03
// Variance that rounding to whole codes adds: 1/12 a channel, weighed as luma is (Bennett, Bell System Technical Journal
// 27, 1948; 0.2126² + 0.7152² + 0.0722² = 0.562).
const ROUNDING = 0.562 / 12
/** The finest spread that is told, in pixels: that of a pixel which averages over its own area, the square root of 1/12. */
export const FINEST_PX = 12 ** -0.5
// The fit starts from a spread of this many pixels at 240 px, hence from the lowest frequencies.
const START = 8
const ROUNDS = 8
const STEPS = 20
// A lens out of focus blurs by a disc, whose power comes back in side lobes beyond its first zero; the Gaussian of the same
// variance has left exp(-6.6) of it at the first lobe. From about there frequencies tell of grain only; a sudden end
// would leave a wide blur few rings.
const DEEP = 6
const LEAST_WEIGHT = 0.02
// Spectra of eyes scatter about the law by about this factor, in nepers; further off counts less (Huber 1964).
const SCATTER = 0.3
const FAR = 1
const FEWEST_RINGS = 6

/** Logarithms of the amplitude of the edges, of their variance, and of the grain. */
type Parameters = [amplitude: number, variance: number, grain: number]

/**
 * Fits to a power spectrum what sharp edges at random distances leave when a Gaussian of variance s² blurs them and grain
 * is added:
 *
 *     P(f) = A (f² + f0²)^(-3/2) exp(-4 pi² s² f²) + N
 *
 * Edges at random distances have a covariance of exp(-r / d), whose two-dimensional transform is the first factor, with
 * f0 = 1 / (2 pi d) (Debye, Anderson and Brumberger, Journal of Applied Physics 28, 1957; Gradshteyn and Ryzhik 6.623.2);
 * the exponential is the squared transform of the Gaussian. Least squares in the logarithm by Levenberg and Marquardt.
 * @param scale pixels per pixel at an inter-eye distance of 240 px
 * @returns null when there are too few rings
 */
export function fitEdgeLaw(rings: readonly Ring[], scale: number): LawFit | null {
  if (rings.length < FEWEST_RINGS) return null
  const samples = rings.map(({ frequency, power }) => ({
    law: -1.5 * Math.log(frequency ** 2 + (CORNER / scale) ** 2),
    decay: 4 * Math.PI ** 2 * frequency ** 2,
    power: Math.log(power + ROUNDING),
  }))
  const best = fitFromCoarse(samples, (START * scale) ** 2)
  const variance = Math.exp(best.parameters[1])
  const scatter = Math.max(SCATTER, Math.sqrt(best.cost / (samples.length - 3)))
  const logError = scatter * Math.sqrt(varianceOfSecond(best.normal))
  return { variance, error: logError * variance, grain: Math.exp(best.parameters[2]) }
}

interface Sample {
  readonly law: number
  readonly decay: number
  readonly power: number
}

interface Weighed extends Sample {
  readonly weight: number
}

/** Where a fit stands: `cost` is what is made small. */
interface State {
  readonly parameters: Parameters
  readonly cost: number
  readonly normal: Normal
}

/** Fits the frequencies that the spread found so far leaves, until it stays: the coarse ones first, then finer and finer. */
function fitFromCoarse(samples: readonly Sample[], start: number): State {
  const [first] = samples
  const quietest = Math.min(...samples.map(({ power }) => power))
  const amplitude = first ? first.power - first.law + first.decay * start : 0
  let parameters: Parameters = [amplitude, Math.log(start), quietest - 1]
  for (let round = 1; ; round++) {
    const variance = Math.exp(parameters[1])
    const weighed = samples.map((sample) => ({ ...sample, weight: weightAt(sample.decay * variance) }))
    const state = fitFrom(weighed, parameters, quietest)
    const change = Math.abs(state.parameters[1] - parameters[1])
    if (change < 1e-3 || round === ROUNDS) return state
    parameters = state.parameters
  }
}

function weightAt(depth: number): number {
  return Math.max(LEAST_WEIGHT, 1 / (1 + (depth / DEEP) ** 4))
}

/** @param most logarithm of the most grain there can be: what the quietest ring has */
function fitFrom(samples: readonly Weighed[], from: Parameters, most: number): State {
  let state = evaluate(samples, from)
  let damping = 1e-2
  for (let step = 0; step < STEPS && damping < 1e6; step++) {
    const change = dampedStep(state.normal, damping)
    if (!change) break
    const next = evaluate(samples, moved(state.parameters, change, most))
    if (next.cost < state.cost) {
      const gain = 1 - next.cost / state.cost
      state = next
      damping *= 0.3
      if (gain < 1e-6) break
    } else {
      damping *= 5
    }
  }
  return state
}

function moved([amplitude, variance, grain]: Parameters, change: Parameters, most: number): Parameters {
  const limited = change.map((value) => Math.max(-1, Math.min(1, value))) as Parameters
  return [
    amplitude + limited[0],
    Math.max(2 * Math.log(FINEST_PX), variance + limited[1]),
    Math.max(Math.log(ROUNDING / 100), Math.min(most, grain + limited[2])),
  ]
}

function evaluate(samples: readonly Weighed[], parameters: Parameters): State {
  const [amplitude, logVariance, logGrain] = parameters
  const variance = Math.exp(logVariance)
  const grain = Math.exp(logGrain)
  const normal = emptyNormal()
  let cost = 0
  for (const { law, decay, power, weight } of samples) {
    const edges = Math.exp(amplitude + law - decay * variance)
    const all = edges + grain + ROUNDING
    const off = power - Math.log(all)
    const far = Math.abs(off)
    cost += weight * (far < FAR ? off * off : FAR * (2 * far - FAR))
    const counts = far < FAR ? weight : (weight * FAR) / far
    const slope = [edges / all, (-edges * variance * decay) / all, grain / all] as const
    for (const [r, row] of normal.entries()) {
      const share = counts * (slope[r] as number)
      for (let c = 0; c < 3; c++) row[c] = (row[c] as number) + share * (slope[c] as number)
      row[3] += share * off
    }
  }
  return { parameters, cost, normal }
}
