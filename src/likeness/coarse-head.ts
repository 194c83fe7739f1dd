import { correlation } from './grid-likeness.ts'
import { type LumaGrid, mirrored } from './luma-grid.ts'

/** A head at half the resolution of its grid, made ready to be compared with thousands of others. */
export interface CoarseHead {
  readonly plain: LumaGrid
  readonly mirror: LumaGrid
  /** Both with mean 0 and length 1, whose product is their correlation; null where a cell lies outside the frame. */
  readonly unit: { readonly plain: Float32Array; readonly mirror: Float32Array } | null
}

/** Correlation of two heads before they are aligned, and with the second one mirrored. */
export interface HeadsLikeness {
  readonly plain: number
  readonly mirror: number
}

export function coarseHead(head: LumaGrid): CoarseHead {
  const plain = halved(head)
  const mirror = mirrored(plain)
  const whole = plain.luma.every((value) => value !== 0)
  return { plain, mirror, unit: whole ? { plain: unitOf(plain), mirror: unitOf(mirror) } : null }
}

export function headsLikeness(a: CoarseHead, b: CoarseHead): HeadsLikeness {
  if (a.unit && b.unit && a.plain.columns === b.plain.columns)
    return products(a.unit.plain, b.unit.plain, b.unit.mirror)
  return { plain: correlation(a.plain, b.plain), mirror: correlation(a.plain, b.mirror) }
}

/** Each cell the mean of four; 0 where one of them lies outside the frame. */
function halved({ columns: from, rows: high, luma }: LumaGrid): LumaGrid {
  const columns = from >> 1
  const rows = high >> 1
  const out = new Float32Array(columns * rows)
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const at = 2 * row * from + 2 * column
      const p = luma[at] as number
      const q = luma[at + 1] as number
      const r = luma[at + from] as number
      const s = luma[at + from + 1] as number
      out[row * columns + column] = p === 0 || q === 0 || r === 0 || s === 0 ? 0 : (p + q + r + s) / 2 ** 2
    }
  }
  return { columns, rows, luma: out }
}

/** Length below which a head is of one brightness, codes. @choice far below one code in one cell. */
const FLAT = 1e-6

/** All zeros for a head of one brightness, which then correlates with none. */
function unitOf({ luma }: LumaGrid): Float32Array {
  const mean = luma.reduce((sum, value) => sum + value, 0) / luma.length
  const length = Math.sqrt(luma.reduce((sum, value) => sum + (value - mean) ** 2, 0))
  return luma.map((value) => (length < FLAT ? 0 : (value - mean) / length))
}

function products(a: Float32Array, plain: Float32Array, mirror: Float32Array): HeadsLikeness {
  let p = 0
  let m = 0
  for (let i = 0; i < a.length; i++) {
    const value = a[i] as number
    p += value * (plain[i] as number)
    m += value * (mirror[i] as number)
  }
  return { plain: p, mirror: m }
}
