import { withKernels } from './with-kernels.ts'

const [FLOAT, DOUBLE] = [Float32Array.BYTES_PER_ELEMENT, Float64Array.BYTES_PER_ELEMENT]
/** Coefficients of a surface, numbers of its equations, and digits by which a middle value is found. */
const [TERMS, EQUATIONS, DIGITS] = [6, 42, 2048]

/** How a surface is fitted, as src/imaging/surface.ts says. */
export interface FitLimits {
  readonly toSigma: number
  readonly tukey: number
  readonly rounds: number
  readonly settled: number
  readonly ridge: number
  readonly singular: number
}

/**
 * The quadratic surface through samples by least squares that are weighed anew in each round, in double precision: its coefficients, the robust
 * standard deviation of the samples around it, and how many of them it keeps.
 */
export function fittedSurface(
  [xs, ys, zs]: readonly [Float32Array, Float32Array, Float32Array],
  floor: number,
  { toSigma, tukey, rounds, settled, ridge, singular }: FitLimits,
): { readonly surface: Float64Array; readonly sigma: number; readonly kept: number } {
  return withKernels((kernels, memory) => {
    const samples = [memory.put(xs), memory.put(ys), memory.put(zs)]
    const residuals = memory.room(FLOAT * xs.length)
    const sizes = memory.room(FLOAT * xs.length)
    const counts = memory.room(Int32Array.BYTES_PER_ELEMENT * DIGITS)
    const weights = memory.room(DOUBLE * xs.length)
    const equations = memory.room(DOUBLE * EQUATIONS)
    const out = memory.room(DOUBLE * (TERMS + 2))
    kernels.fitSurface(
      ...[...samples, xs.length, floor, toSigma, tukey, rounds, settled, ridge, singular],
      ...[residuals, sizes, counts, weights, equations, out],
    )
    const told = memory.doubles(out, TERMS + 2)
    return { surface: told.slice(0, TERMS), sigma: told[TERMS] as number, kept: told[TERMS + 1] as number }
  })
}
