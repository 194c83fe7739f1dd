import type { LabPlanes } from '../../../color/lab.ts'

/** A linear map of colors: one row of three factors and an offset for each of L*, a* and b*. */
export type ColorMap = readonly Float64Array[]

const TERMS = 4
const ROUNDS = 4
// Pixels farther off than this many times the median are left out of the next round: what was retouched must not bend
// the map.
const OUTLIER = 3
// Rounding to 8 bits alone is worth about half a unit of L*.
const LEAST_RESIDUAL = 0.5

/**
 * The color map that turns one picture's pixels into another's best, by least squares with outliers left out in turn:
 * it takes up what another profile, another tone curve or a grade changes everywhere alike.
 */
export function fitColors(from: LabPlanes, to: LabPlanes): ColorMap {
  const n = from.L.length
  let used: Uint8Array = new Uint8Array(n).fill(1)
  let map: ColorMap = IDENTITY
  for (let round = 0; round < ROUNDS; round++) {
    map = solve(from, to, used) ?? map
    const residuals = Float32Array.from({ length: n }, (_, i) => distanceAt(map, from, to, i))
    const middle = Math.max(LEAST_RESIDUAL, Float32Array.from(residuals).sort()[n >> 1] ?? 0)
    used = Uint8Array.from(residuals, (residual) => (residual <= OUTLIER * middle ? 1 : 0))
  }
  return map
}

const IDENTITY: ColorMap = [0, 1, 2].map((row) => Float64Array.from([0, 1, 2, 3], (c) => (c === row ? 1 : 0)))

export function mapColors(map: ColorMap, { L, a, b }: LabPlanes): LabPlanes {
  const plane = (row: number) => Float32Array.from(L, (_, i) => apply(map[row], L[i], a[i], b[i]))
  return { L: plane(0), a: plane(1), b: plane(2) }
}

function apply(row: Float64Array | undefined, L = 0, a = 0, b = 0): number {
  const [x = 0, y = 0, z = 0, offset = 0] = row ?? []
  return x * L + y * a + z * b + offset
}

function distanceAt(map: ColorMap, from: LabPlanes, to: LabPlanes, i: number): number {
  const [L, a, b] = map.map((row) => apply(row, from.L[i], from.a[i], from.b[i]))
  return Math.hypot((L ?? 0) - (to.L[i] ?? 0), (a ?? 0) - (to.a[i] ?? 0), (b ?? 0) - (to.b[i] ?? 0))
}

/** Normal equations of the three rows, which share their matrix; a ridge keeps a grey picture's from being singular. */
function solve(from: LabPlanes, to: LabPlanes, used: Uint8Array): ColorMap | null {
  const width = TERMS + 3
  const m = new Float64Array(TERMS * width)
  let total = 0
  for (let i = 0; i < used.length; i++) {
    if (used[i] === 0) continue
    total++
    const row = [from.L[i], from.a[i], from.b[i], 1, to.L[i], to.a[i], to.b[i]] as number[]
    for (let r = 0; r < TERMS; r++)
      for (let c = 0; c < width; c++)
        m[r * width + c] = (m[r * width + c] as number) + (row[r] as number) * (row[c] as number)
  }
  if (total < 10 * TERMS) return null
  // The ridge pulls towards the identity.
  for (let r = 0; r < 3; r++) {
    m[r * width + r] = (m[r * width + r] as number) + total
    m[r * width + TERMS + r] = (m[r * width + TERMS + r] as number) + total
  }
  return eliminate(m, width)
}

/** Gauss and Jordan on a symmetric positive definite matrix, its right-hand sides beside it. */
function eliminate(m: Float64Array, width: number): ColorMap | null {
  const at = (r: number, c: number) => m[r * width + c] as number
  for (let p = 0; p < TERMS; p++) {
    const pivot = at(p, p)
    if (Math.abs(pivot) < 1e-9) return null
    for (let c = 0; c < width; c++) m[p * width + c] = at(p, c) / pivot
    for (let r = 0; r < TERMS; r++) {
      if (r === p) continue
      const factor = at(r, p)
      for (let c = 0; c < width; c++) m[r * width + c] = at(r, c) - factor * at(p, c)
    }
  }
  return [0, 1, 2].map((row) => Float64Array.from({ length: TERMS }, (_, r) => at(r, TERMS + row)))
}
