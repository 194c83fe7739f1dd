import { LIMITS } from '../measure/file/read-file.ts'

/** Memory that decoding may take in each worker while all work, in bytes: a plain JPEG of 89 million pixels. */
export const SHARE = 256 * 1024 ** 2

/** Memory that decoding may take in all workers together: at least that of the largest picture that is decoded. */
export function budgetOf(workers: number): number {
  return Math.max(LIMITS.memory, workers * SHARE)
}

/** How many pictures fit into a budget at a time of which the largest takes so many bytes: one at least. */
export function atOnce(budget: number, largest: number, workers: number): number {
  return Math.max(1, Math.min(workers, Math.floor(budget / largest)))
}
