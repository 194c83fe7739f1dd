import type { LabPlanes } from '../../../color/lab.ts'
import { solveSystems } from '../../../numbers/linear-system.ts'
import { upperMedian } from '../../../numbers/quantile.ts'

/** A linear map of colors: one row of three factors and an offset for each of L*, a* and b*. */
export type ColorMap = readonly Float64Array[]

/** Coefficients of a row. @choice definition: three factors and an offset. */
const TERMS = 4

/** Rounds of the fit. @choice no source: what was retouched is left out after the first or second. */
const ROUNDS = 4

/** Distance beyond which pixels are left out of the next round, medians: what was retouched must not bend the map. @choice no source. */
const OUTLIER = 3

/** Least median that counts, L*. @choice rounding to 8 bits alone is worth about half a unit. */
const LEAST_RESIDUAL = 0.5

/** Fewest pixels that a map is fitted to. @choice ten for each of its coefficients in a row, no source. */
const FEWEST_PIXELS = 40

/** Pivot below which there is no map. @choice far below the sum of any pixel's squares, no source. */
const LEAST_PIVOT = 1e-9

/** Pixels that the map is fitted to, spread over the picture. @choice it has twelve unknowns, and more pixels take longer; no source. */
const SAMPLES = 4000

/**
 * The color map that turns one picture's pixels into another's best, by least squares with outliers left out in turn:
 * it takes up what another profile, another tone curve or a grade changes everywhere alike.
 */
export function fitColors(from: LabPlanes, to: LabPlanes): ColorMap {
  const step = Math.max(1, Math.floor(from.L.length / SAMPLES))
  const every = <T extends Float32Array>(plane: T) => plane.filter((_, i) => i % step === 0)
  const one = { L: every(from.L), a: every(from.a), b: every(from.b) }
  const other = { L: every(to.L), a: every(to.a), b: every(to.b) }
  let used = new Uint8Array(one.L.length).fill(1)
  let map: ColorMap = IDENTITY
  for (let round = 0; round < ROUNDS; round++) {
    map = solve(one, other, used) ?? map
    const residuals = distances(mapColors(map, one), other)
    const middle = Math.max(LEAST_RESIDUAL, upperMedian(residuals))
    used = Uint8Array.from(residuals, (residual) => (residual <= OUTLIER * middle ? 1 : 0))
  }
  return map
}

const IDENTITY: ColorMap = [0, 1, 2].map((row) =>
  Float64Array.from({ length: TERMS }, (_, c) => (c === row ? 1 : 0)),
)

export function mapColors(map: ColorMap, { L, a, b }: LabPlanes): LabPlanes {
  const plane = (row: number) => {
    const [x = 0, y = 0, z = 0, offset = 0] = map[row] ?? []
    return L.map((value, i) => x * value + y * (a[i] as number) + z * (b[i] as number) + offset)
  }
  return { L: plane(0), a: plane(1), b: plane(2) }
}

/** ΔE*ab (1976) pixel by pixel. */
export function distances(one: LabPlanes, other: LabPlanes): Float32Array {
  return one.L.map((value, i) => {
    const dL = value - (other.L[i] as number)
    const da = (one.a[i] as number) - (other.a[i] as number)
    const db = (one.b[i] as number) - (other.b[i] as number)
    return Math.sqrt(dL * dL + da * da + db * db)
  })
}

/** Normal equations of the three rows, which share their matrix; a ridge keeps a gray picture's from being singular. */
function solve(from: LabPlanes, to: LabPlanes, used: Uint8Array): ColorMap | null {
  const width = TERMS + 3
  const m = new Float64Array(TERMS * width)
  const row = new Float64Array(width)
  let total = 0
  for (let i = 0; i < used.length; i++) {
    if (used[i] === 0) continue
    total++
    row.set([from.L[i], from.a[i], from.b[i], 1, to.L[i], to.a[i], to.b[i]] as number[])
    for (let r = 0; r < TERMS; r++)
      for (let c = 0; c < width; c++)
        m[r * width + c] = (m[r * width + c] as number) + (row[r] as number) * (row[c] as number)
  }
  if (total < FEWEST_PIXELS) return null
  // The ridge pulls towards the identity.
  for (let r = 0; r < 3; r++) {
    m[r * width + r] = (m[r * width + r] as number) + total
    m[r * width + TERMS + r] = (m[r * width + TERMS + r] as number) + total
  }
  return solveSystems(m, TERMS, TERMS - 1, LEAST_PIVOT) ?? null
}
