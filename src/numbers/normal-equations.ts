import { determinant, invert, type Matrix, type Triple } from './matrix3.ts'

/**
 * Normal equations of weighted least squares with three parameters: sums of products of the model's derivatives, and of the
 * derivatives with the residuals.
 */
export class NormalEquations {
  readonly #rows: [Row, Row, Row] = [
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 0],
  ]
  readonly #right: Row = [0, 0, 0]

  /** @param derivatives of the model with respect to the parameters; @param residual what was measured less the model */
  add(derivatives: Triple, residual: number, weight: number): void {
    for (const [r, row] of this.#rows.entries()) {
      const share = weight * (derivatives[r] as number)
      for (let c = 0; c < 3; c++) row[c] = (row[c] as number) + share * (derivatives[c] as number)
      this.#right[r] = (this.#right[r] as number) + share * residual
    }
  }

  get matrix(): Matrix {
    return this.#rows
  }

  get right(): Triple {
    return this.#right
  }

  /** Variance of each parameter where residuals have variance 1: the diagonal of the inverse. Infinite when singular. */
  get variances(): Triple {
    if (!(determinant(this.#rows) > 0)) return [Infinity, Infinity, Infinity]
    const [p, q, r] = invert(this.#rows)
    return [p[0], q[1], r[2]]
  }
}

type Row = [number, number, number]
