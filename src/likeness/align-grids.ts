import type { AlignmentLimits } from '../kernels/grids/grids.ts'

/** How long an alignment is tried. */
type Patience = Pick<AlignmentLimits, 'rounds' | 'trial' | 'settled'>

/** The largest movement that is plausible: in cells, and as a share of the size. */
type Reach = Pick<AlignmentLimits, 'shift' | 'stretch'>

/**
 * How long an alignment is tried unless told; by its fourth round copies have come near.
 * @tuned on pairs of different people, which are given up early, and on copies, of which none is.
 */
export const PATIENT: Patience = { rounds: 12, trial: { round: 4, least: 0.75 } }

/** A step smaller than this changes nothing any more, share of a cell. @choice no source: a hundredth of a cell moves no correlation. */
const STILL = 0.01

/** Pivot below which a step has no solution. @choice far below the squares of any slope in codes, no source. */
const SINGULAR = 1e-9

/** How far and how long an alignment is tried. */
export function limitsOf(reach: Reach, patience: Patience = PATIENT): AlignmentLimits {
  return { ...reach, ...patience, still: STILL, singular: SINGULAR }
}
