import type { Doubt } from './common.ts'

/** Confidence from which a measured value may decide pass or fail; below it the verdict is unsure. @choice the middle of 0 to 1. */
export const SURE = 0.5

/**
 * How far from a limit a value decides, share of its error (which 95 of 100 truths are within); nearer to one the verdict is unsure.
 * @choice half: of normally distributed errors, one in six would be on the other side there.
 */
export const DECIDING_SHARE = 0.5

/** Highest confidence of a value that something makes doubtful. @choice any value below SURE leaves the rules unsure; this one shows it plainly. */
const DOUBTFUL = 0.4

/** The confidence of a value, held below what decides when there are doubts. */
export function doubted(confidence: number, doubts: Iterable<Doubt>): number {
  const [doubt] = doubts
  return doubt === undefined ? confidence : Math.min(confidence, DOUBTFUL)
}
