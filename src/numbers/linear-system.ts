/**
 * Solves n linear equations by Gauss-Jordan elimination with partial pivoting.
 * @param m n rows of n + 1 numbers, the last the right side; overwritten
 * @param least a pivot below this counts as none
 * @returns undefined when the equations have no one solution
 */
export function solveSystem(m: Float64Array, n: number, least: number): Float64Array | undefined {
  return solveSystems(m, n, 1, least)?.[0]
}

/**
 * The same equations with several right sides.
 * @param m n rows of n + `sides` numbers; overwritten
 * @returns one solution for each right side
 */
export function solveSystems(
  m: Float64Array,
  n: number,
  sides: number,
  least: number,
): Float64Array[] | undefined {
  const width = n + sides
  const at = (r: number, c: number) => m[r * width + c] as number
  for (let col = 0; col < n; col++) {
    let pivot = col
    for (let r = col + 1; r < n; r++) if (Math.abs(at(r, col)) > Math.abs(at(pivot, col))) pivot = r
    if (!(Math.abs(at(pivot, col)) >= least)) return undefined
    for (let c = col; c < width; c++) {
      const held = at(col, c)
      m[col * width + c] = at(pivot, c)
      m[pivot * width + c] = held
    }
    for (let r = 0; r < n; r++) {
      if (r === col) continue
      const factor = at(r, col) / at(col, col)
      for (let c = col; c < width; c++) m[r * width + c] = at(r, c) - factor * at(col, c)
    }
  }
  return Array.from({ length: sides }, (_, side) =>
    Float64Array.from({ length: n }, (_, r) => at(r, n + side) / at(r, r)),
  )
}

/** Fills the lower half of n symmetric equations from the upper one. @param m n rows of n + 1 numbers; changed */
export function mirrorUpper(m: Float64Array, n: number): void {
  const width = n + 1
  for (let r = 1; r < n; r++) for (let c = 0; c < r; c++) m[r * width + c] = m[c * width + r] as number
}
