/** A profile across an edge: positions in pixels from the edge, and luma there. */
export interface Profile {
  readonly at: Float64Array
  readonly luma: Float64Array
}

export interface EdgeFit {
  /** Spread of the edge: standard deviation of the Gaussian that blurs a sharp step into it, in pixels. */
  readonly sigma: number
  /** Where the edge lies on the profile, in pixels. */
  readonly offset: number
  /** Share of the profile's variance that the fit explains, up to 1. */
  readonly explained: number
}

// base + first * step at x1 + second * step at x2, both blurred by the same sigma.
type Parameters = [base: number, first: number, x1: number, logSigma: number, second: number, x2: number]
const COUNT = 6
const STEPS = 40
const LOG_SIGMA = { min: -2, max: 3.5 }

/**
 * Fits two steps blurred by one Gaussian to a profile (Levenberg-Marquardt least squares; Numerical Recipes, 3rd ed.,
 * 15.5). Around an eye most edges come in pairs: a lash, a lid's rim, the frame of spectacles; read as a single step they
 * would pass for sharper than they are. A line much narrower than its blur is still not told from a step; the share
 * explained tells.
 * @param sigma first guess of the spread, in pixels
 */
export function fitEdge(profile: Profile, sigma: number): EdgeFit | null {
  const guesses = [-1, 1].map((side) => fitFrom(profile, sigma, side * (2 * sigma + 1)))
  const best = guesses.reduce((a, b) => (b.error < a.error ? b : a))
  const { luma } = profile
  const mean = luma.reduce((sum, value) => sum + value, 0) / luma.length
  const variance = luma.reduce((sum, value) => sum + (value - mean) ** 2, 0)
  if (variance === 0 || !Number.isFinite(best.error)) return null
  const [, , offset, logSigma] = best.parameters
  return { sigma: Math.exp(logSigma), offset, explained: 1 - best.error / variance }
}

interface State {
  readonly parameters: Parameters
  readonly error: number
}

function fitFrom(profile: Profile, sigma: number, secondAt: number): State {
  const { luma } = profile
  const first = luma[0] ?? 0
  const last = luma[luma.length - 1] ?? 0
  let parameters: Parameters = [first, last - first, 0, Math.log(sigma), 0, secondAt]
  const normal = new Float64Array(COUNT * (COUNT + 1))
  let error = accumulate(profile, parameters, normal)
  let damping = 1e-2
  for (let step = 0; step < STEPS && damping < 1e6; step++) {
    const change = solve(normal, damping)
    if (!change) break
    const next = parameters.map((value, i) => value + (change[i] as number)) as Parameters
    next[3] = Math.min(LOG_SIGMA.max, Math.max(LOG_SIGMA.min, next[3]))
    const nextNormal = new Float64Array(normal.length)
    const nextError = accumulate(profile, next, nextNormal)
    if (nextError < error) {
      const gain = (error - nextError) / error
      parameters = next
      error = nextError
      normal.set(nextNormal)
      damping *= 0.4
      if (gain < 1e-5) break
    } else {
      damping *= 4
    }
  }
  return { parameters, error }
}

/** Sum of squared residuals; fills the normal equations, one row a parameter with the right side last. */
function accumulate({ at, luma }: Profile, parameters: Parameters, normal: Float64Array): number {
  const [base, first, x1, logSigma, second, x2] = parameters
  const sigma = Math.exp(logSigma)
  const slope = new Float64Array(COUNT)
  normal.fill(0)
  let error = 0
  for (let i = 0; i < at.length; i++) {
    const z1 = ((at[i] as number) - x1) / sigma
    const z2 = ((at[i] as number) - x2) / sigma
    const step1 = normalShare(z1)
    const step2 = normalShare(z2)
    const rise1 = normalDensity(z1)
    const rise2 = normalDensity(z2)
    const residual = (luma[i] as number) - (base + first * step1 + second * step2)
    error += residual * residual
    slope[0] = 1
    slope[1] = step1
    slope[2] = (-first * rise1) / sigma
    slope[3] = -first * rise1 * z1 - second * rise2 * z2
    slope[4] = step2
    slope[5] = (-second * rise2) / sigma
    for (let r = 0; r < COUNT; r++) {
      const row = r * (COUNT + 1)
      for (let c = 0; c < COUNT; c++)
        normal[row + c] = (normal[row + c] as number) + (slope[r] as number) * (slope[c] as number)
      normal[row + COUNT] = (normal[row + COUNT] as number) + (slope[r] as number) * residual
    }
  }
  return error
}

/** Solves the damped normal equations by Gauss-Jordan elimination with pivoting; null when singular. */
function solve(normal: Float64Array, damping: number): Float64Array | null {
  const width = COUNT + 1
  const m = normal.slice()
  for (let i = 0; i < COUNT; i++)
    m[i * width + i] = (m[i * width + i] as number) * (1 + damping) + damping * 1e-6
  for (let column = 0; column < COUNT; column++) {
    let pivot = column
    for (let r = column + 1; r < COUNT; r++) {
      if (Math.abs(m[r * width + column] as number) > Math.abs(m[pivot * width + column] as number)) pivot = r
    }
    const lead = m[pivot * width + column] as number
    if (Math.abs(lead) < 1e-12) return null
    for (let c = column; c < width; c++) {
      const held = m[column * width + c] as number
      m[column * width + c] = (m[pivot * width + c] as number) / lead
      if (pivot !== column) m[pivot * width + c] = held
    }
    for (let r = 0; r < COUNT; r++) {
      if (r === column) continue
      const factor = m[r * width + column] as number
      for (let c = column; c < width; c++)
        m[r * width + c] = (m[r * width + c] as number) - factor * (m[column * width + c] as number)
    }
  }
  return Float64Array.from({ length: COUNT }, (_, i) => m[i * width + COUNT] as number)
}

function normalDensity(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)
}

/** Normal distribution function, error below 1.5e-7 (Abramowitz & Stegun, 7.1.26). */
function normalShare(z: number): number {
  const x = Math.abs(z) / Math.SQRT2
  const t = 1 / (1 + 0.3275911 * x)
  const poly =
    t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))))
  const erf = 1 - poly * Math.exp(-x * x)
  return z >= 0 ? (1 + erf) / 2 : (1 - erf) / 2
}
