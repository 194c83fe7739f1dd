import { likelihoods, likelyPlace } from '../../src/measure/head/chin-evidence.ts'
import type { ChinExample } from './examples.ts'
import { fitWeights } from './logit.ts'

/** Parts that the sitters are divided into; each is tested on what was learned from the others. @choice common practice. */
const PARTS = 10

/** How an example is read by weights that were fitted without its sitter. */
export interface HeldOut {
  readonly example: ChinExample
  /** Read less true, % of the frame height. */
  readonly error: number
  /** Standard deviation of where the chin may be, % of the frame height. */
  readonly spread: number
}

/** Reads every example by weights that were fitted without its sitter. */
export function heldOut(examples: readonly ChinExample[]): HeldOut[] {
  const sitters = [...new Set(examples.map(({ sitter }) => sitter))].sort()
  const partOf = ({ sitter }: ChinExample) => sitters.indexOf(sitter) % PARTS
  return Array.from({ length: PARTS }, (_, part) => part).flatMap((part) => {
    const weights = fitWeights(examples.filter((one) => partOf(one) !== part))
    return examples.filter((one) => partOf(one) === part).map((one) => readBy(one, weights))
  })
}

function readBy(example: ChinExample, weights: readonly number[]): HeldOut {
  const { place, spread } = likelyPlace(likelihoods(example.evidence, weights))
  return {
    example,
    error: (place - example.truth) * example.percent,
    spread: spread * example.percent,
  }
}
