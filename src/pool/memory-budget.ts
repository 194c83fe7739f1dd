import { LIMITS } from '../measure/file/read-file.ts'

/** What the decoding of all workers together may take for each of them: four portraits of 24 million pixels at once. */
const EACH = 384 * 1024 ** 2

/** Memory that decoding may take in all workers together: at least that of the largest picture that is decoded. */
export function budgetOf(workers: number): number {
  return Math.max(LIMITS.memory, workers * EACH)
}

/** How many pictures fit into a budget at a time of which the largest takes so many bytes: one at least. */
export function atOnce(budget: number, largest: number, workers: number): number {
  return Math.max(1, Math.min(workers, Math.floor(budget / largest)))
}
