import { likelihoods, PLACES } from '../../src/measure/head/chin-evidence.ts'
import { mirrorUpper, solveSystem } from '../../src/numbers/linear-system.ts'
import type { ChinExample } from './examples.ts'

/** Weight of a drawn portrait, a photograph's being one. @choice about 130 drawn portraits of 24 sitters against about 60 photographs of as many. */
const DRAWN = 0.3

/** Penalty on the square of each weight. @choice anything from 0.02 to 0.2 reads marked chins alike. */
const RIDGE = 0.05

/** How far a mark may be from the true chin, cells: the places around it count as right too. @choice half a percent of the way from the eyes. */
const MARKED_WITHIN = 1

/** Rounds of Newton's method at most. @choice it settles in six to nine. */
const ROUNDS = 15

/** Change of a weight that ends it. @choice far below what the file of weights keeps. */
const SETTLED = 1e-5

/**
 * Weights of the evidence under which the known chins are likeliest.
 * @source McFadden 1974, the conditional logit, by Newton's method with a ridge penalty.
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
  for (const [place, values] of evidence.entries()) {
    const chance = chances[place] as number
    const missing = share * ((right[place] as number) - chance)
    const apart = values.map((value, i) => value - (mean[i] as number))
    for (let i = 0; i < count; i++) {
      const row = i * (count + 1)
      for (let j = i; j < count; j++)
        add(system, row + j, share * chance * (apart[i] as number) * (apart[j] as number))
      add(system, row + count, missing * (values[i] as number))
    }
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
