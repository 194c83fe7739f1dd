import type { AlignmentLimits, Grids, HeldGrid, Similarity } from '../kernels/grids.ts'
import { IDENTITY } from './luma-grid.ts'

/** How long an alignment is tried. */
export type Patience = Pick<AlignmentLimits, 'rounds' | 'trial' | 'settled'>

/** The largest movement that is plausible: in cells, and as a share of the size. */
export type Reach = Pick<AlignmentLimits, 'shift' | 'stretch'>

/**
 * How long an alignment is tried unless told; by its fourth round copies have come near.
 * @tuned on pairs of different people, which are given up early, and on copies, of which none is.
 */
export const PATIENT: Patience = { rounds: 12, trial: { round: 4, least: 0.75 } }

/** A step smaller than this changes nothing any more, share of a cell. @choice no source: a hundredth of a cell moves no correlation. */
const STILL = 0.01

/** Pivot below which a step has no solution. @choice far below the squares of any slope in codes, no source. */
const SINGULAR = 1e-9

/** The move that aligns the second grid with the first; null when the best one lies out of reach or makes them no more alike. */
export function alignment(
  grids: Grids,
  first: HeldGrid,
  second: HeldGrid,
  reach: Reach,
  start: Similarity = IDENTITY,
  patience: Patience = PATIENT,
): Similarity | null {
  return grids.align(first, second, start, { ...reach, ...patience, still: STILL, singular: SINGULAR })
}
