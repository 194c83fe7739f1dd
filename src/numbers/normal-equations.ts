import { determinant, invert, type Matrix, type Triple } from './matrix3.ts'

/**
 * Normal equations of weighted least squares with three parameters: sums of products of the model's derivatives, and of the
 * derivatives with the residuals.
 */
export class NormalEquations {
  // One declaration each: in a list they would be added to by index, which takes four times as long.
  #m00 = 0
  #m01 = 0
  #m02 = 0
  #m11 = 0
  #m12 = 0
  #m22 = 0
  #right0 = 0
  #right1 = 0
  #right2 = 0

  /** @param derivatives of the model with respect to the parameters; @param residual what was measured less the model */
  add([d0, d1, d2]: Triple, residual: number, weight: number): void {
    const share0 = weight * d0
    const share1 = weight * d1
    const share2 = weight * d2
    this.#m00 += share0 * d0
    this.#m01 += share0 * d1
    this.#m02 += share0 * d2
    this.#m11 += share1 * d1
    this.#m12 += share1 * d2
    this.#m22 += share2 * d2
    this.#right0 += share0 * residual
    this.#right1 += share1 * residual
    this.#right2 += share2 * residual
  }

  get matrix(): Matrix {
    return [
      [this.#m00, this.#m01, this.#m02],
      [this.#m01, this.#m11, this.#m12],
      [this.#m02, this.#m12, this.#m22],
    ]
  }

  get right(): Triple {
    return [this.#right0, this.#right1, this.#right2]
  }

  /** Variance of each parameter where residuals have variance 1: the diagonal of the inverse. Infinite when singular. */
  get variances(): Triple {
    if (!(determinant(this.matrix) > 0)) return [Infinity, Infinity, Infinity]
    const [p, q, r] = invert(this.matrix)
    return [p[0], q[1], r[2]]
  }
}
