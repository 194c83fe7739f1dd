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
  for (let col = 0; col < n; col++) {
    let pivot = col
    for (let r = col + 1; r < n; r++)
      if (sizeAt(m, r * width + col) > sizeAt(m, pivot * width + col)) pivot = r
    if (!(sizeAt(m, pivot * width + col) >= least)) return undefined
    for (let c = col; c < width; c++) {
      const held = m[col * width + c] as number
      m[col * width + c] = m[pivot * width + c] as number
      m[pivot * width + c] = held
    }
    for (let r = 0; r < n; r++) {
      if (r === col) continue
      const factor = (m[r * width + col] as number) / (m[col * width + col] as number)
      for (let c = col; c < width; c++)
        m[r * width + c] = (m[r * width + c] as number) - factor * (m[col * width + c] as number)
    }
  }
  const solutions: Float64Array[] = []
  for (let side = 0; side < sides; side++) {
    const solution = new Float64Array(n)
    for (let r = 0; r < n; r++)
      solution[r] = (m[r * width + n + side] as number) / (m[r * width + r] as number)
    solutions.push(solution)
  }
  return solutions
}

function sizeAt(m: Float64Array, place: number): number {
  return Math.abs(m[place] as number)
}

/** Fills the lower half of n symmetric equations from the upper one. @param m n rows of n + 1 numbers; changed */
export function mirrorUpper(m: Float64Array, n: number): void {
  const width = n + 1
  for (let r = 1; r < n; r++) for (let c = 0; c < r; c++) m[r * width + c] = m[c * width + r] as number
}
