import { determinant, type Matrix, solve, type Triple } from './matrix3.ts'
import type { NormalEquations } from './normal-equations.ts'

/** A weighted sum of squared residuals at some parameters: what is made small, and its normal equations there. */
export interface LeastSquares {
  readonly cost: number
  readonly normal: NormalEquations
}

export interface Minimum extends LeastSquares {
  readonly parameters: Triple
}

/** Steps that are tried at most. @choice half of the fits to eyes take 10 or fewer, nine in ten no more than these */
const STEPS = 20
/** Damping at first, as a share of the diagonal. @choice nearly Gauss-Newton, since fits begin near by */
const FIRST_DAMPING = 1e-2
/** Factor of the damping after a step that made the cost smaller. @choice within the usual 1/10 to 1/2 */
const LESS = 0.3
/** Factor of the damping after one that did not. @choice within the usual 2 to 10 */
const MORE = 5
/** Damping from which on no step is left. @choice steps are a millionth of Gauss-Newton's then */
const MOST_DAMPING = 1e6
/** Relative gain below which the minimum is reached. @choice the parameters then move by less than they are known by far */
const LEAST_GAIN = 1e-6
/** Added to the diagonal, so that a parameter without influence stays. @choice far below any sum of squares that counts */
const RIDGE = 1e-9
/** Determinant that counts as none. @choice below what the ridge alone gives, 1e-27 */
const SINGULAR = 1e-30

/**
 * Least squares with three parameters by the method of Levenberg and Marquardt (Marquardt, SIAM Journal on Applied
 * Mathematics 11, 1963): Gauss-Newton steps, damped the more the less they gain.
 * @param step longest step of a parameter
 * @param bounded parameters moved to where they are allowed
 */
export function levenbergMarquardt(
  evaluate: (parameters: Triple) => LeastSquares,
  start: Triple,
  step: number,
  bounded: (parameters: Triple) => Triple,
): Minimum {
  let best: Minimum = { parameters: start, ...evaluate(start) }
  let damping = FIRST_DAMPING
  for (let tried = 0; tried < STEPS && damping < MOST_DAMPING; tried++) {
    const change = dampedStep(best.normal, damping)
    if (!change) break
    const parameters = bounded(moved(best.parameters, change, step))
    const next: Minimum = { parameters, ...evaluate(parameters) }
    if (next.cost < best.cost) {
      const gain = 1 - next.cost / best.cost
      best = next
      damping *= LESS
      if (gain < LEAST_GAIN) break
    } else {
      damping *= MORE
    }
  }
  return best
}

/** Null when the equations are singular. */
function dampedStep({ matrix: [p, q, r], right }: NormalEquations, damping: number): Triple | null {
  const damped = (value: number) => value * (1 + damping) + RIDGE
  const matrix: Matrix = [
    [damped(p[0]), p[1], p[2]],
    [q[0], damped(q[1]), q[2]],
    [r[0], r[1], damped(r[2])],
  ]
  return Math.abs(determinant(matrix)) > SINGULAR ? solve(matrix, right) : null
}

function moved([a, b, c]: Triple, change: Triple, step: number): Triple {
  const [x, y, z] = change.map((value) => Math.max(-step, Math.min(step, value))) as [number, number, number]
  return [a + x, b + y, c + z]
}
