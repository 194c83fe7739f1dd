import { likelihoods, PLACES } from '../../src/measure/head/chin-evidence.ts'
import { mirrorUpper, solveSystem } from '../../src/numbers/linear-system.ts'
import type { ChinExample } from './examples.ts'

/** Weight of a drawn portrait, a photograph's being one. @choice about 130 drawn portraits of 24 sitters against about 60 photographs of as many. */
const DRAWN = 0.3

/** Penalty on the square of each weight. @choice anything from 0.02 to 0.2 reads marked chins alike. */
const RIDGE = 0.05

/** How far a mark may be from the true chin, cells: the places around it count as right too. @choice half a percent of the way from the eyes. */
const MARKED_WITHIN = 1

/** Rounds of the Gauss-Newton method at most. @choice it settles in about a dozen. */
const ROUNDS = 25

/** What the score of how far off counts, the logarithm of the chance counting one. @tuned on 51 published photographs by cross-validation: with 1 they are read 0.20 % of the frame off in the mean, without it 0.22 %, the roughest jaws 0.28 against 0.34 %; with 2 no nearer. */
const NEARNESS = 1

/** Change of a weight that ends it. @choice far below what the file of weights keeps. */
const SETTLED = 1e-5

/**
 * Weights of the evidence under which the known chins are likely and what is likely is near them. Where marks are unsure, as
 * on beards, chances that are only likeliest at the mark lie far from it as easily as next to it; the second score counts how far.
 * @source McFadden 1974, the conditional logit, with a ridge penalty; Gneiting and Raftery 2007, the continuous ranked
 *   probability score: the squared difference of cumulative chances, summed over the places. By the Gauss-Newton method.
 */
export function fitWeights(examples: readonly ChinExample[]): number[] {
  const count = examples[0]?.evidence[0]?.length ?? 0
  const total = examples.reduce((sum, one) => sum + weightOf(one), 0)
  let weights = new Array<number>(count).fill(0)
  for (let round = 0; round < ROUNDS; round++) {
    const system = new Float64Array(count * (count + 1))
    for (const one of examples) addExample(one, weightOf(one) / total, weights, system)
    for (const [i, weight] of weights.entries()) {
      add(system, i * (count + 1) + i, RIDGE)
      add(system, i * (count + 1) + count, -RIDGE * weight)
    }
    mirrorUpper(system, count)
    const step = solveSystem(system, count, Number.MIN_VALUE)
    if (!step) throw new Error('The weights of the chin have no one solution.')
    weights = weights.map((weight, i) => weight + (step[i] as number))
    if (Math.max(...step.map(Math.abs)) < SETTLED) break
  }
  return weights
}

function weightOf({ set }: ChinExample): number {
  return set === 'drawn sitters' ? DRAWN : 1
}

/** Adds an example's share to the equations of a step: the upper half of the curvature, and the slope on the right side. */
function addExample(
  { evidence, truth }: ChinExample,
  share: number,
  weights: readonly number[],
  system: Float64Array,
): void {
  const count = weights.length
  const chances = likelihoods(evidence, weights)
  const right = rightPlaces(truth)
  const mean = weights.map((_, i) =>
    evidence.reduce((sum, values, place) => sum + (chances[place] as number) * (values[i] as number), 0),
  )
  // The chance of a chin above the next place, less what is right, and how it changes with each weight.
  let excess = 0
  const above = new Array<number>(count).fill(0)
  for (const [place, values] of evidence.entries()) {
    const chance = chances[place] as number
    const missing = (right[place] as number) - chance
    const apart = values.map((value, i) => value - (mean[i] as number))
    excess -= missing
    for (const [i, value] of apart.entries()) above[i] = (above[i] as number) + chance * value
    addProduct(system, apart, share * chance, share * missing)
    addProduct(system, above, 2 * NEARNESS * share, -2 * NEARNESS * share * excess)
  }
}

/** Adds `values` times themselves, weighted by `curvature`, to the upper half, and times `slope` to the right side. */
function addProduct(system: Float64Array, values: readonly number[], curvature: number, slope: number): void {
  const count = values.length
  for (const [i, value] of values.entries()) {
    const row = i * (count + 1)
    for (let j = i; j < count; j++) add(system, row + j, curvature * value * (values[j] as number))
    add(system, row + count, slope * value)
  }
}

function add(sums: Float64Array, at: number, value: number): void {
  sums[at] = (sums[at] as number) + value
}

/** How far each place counts as right: a bell curve around the mark, 1 in sum. */
function rightPlaces(truth: number): number[] {
  const within = Math.min(PLACES.at(-1) ?? 0, Math.max(PLACES[0] ?? 0, truth))
  const bell = PLACES.map((place) => Math.exp(-0.5 * ((place - within) / MARKED_WITHIN) ** 2))
  const sum = bell.reduce((total, value) => total + value, 0)
  return bell.map((value) => value / sum)
}
