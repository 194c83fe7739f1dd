/** A ratio of width to height, as the spec writes it: 4 to 5, 8.5 to 11. Both above 0. */
export interface Ratio {
  readonly wide: number
  readonly high: number
}

/** Reads "4:5". */
export function ratioOf(text: string): Ratio {
  const [wide = 0, high = 0] = text.split(':').map(Number)
  return { wide, high }
}

/** Within 1 px of width or of height: |w - h wide/high| <= 1 or |h - w high/wide| <= 1, without the division. */
export function fitsRatio(widthPx: number, heightPx: number, { wide, high }: Ratio): boolean {
  const off = Math.abs(widthPx * high - heightPx * wide)
  return off <= Math.max(wide, high) * (1 + ROUNDING)
}

/** The ratio of two edges in lowest terms, "3:4"; null where its numbers are too large to mean anything: 819:1024. */
export function plainRatio(widthPx: number, heightPx: number): string | null {
  const divisor = greatestCommonDivisor(widthPx, heightPx)
  const [wide, high] = [widthPx / divisor, heightPx / divisor]
  return Math.max(wide, high) <= LARGEST_PLAIN ? `${wide}:${high}` : null
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b)
}

/** Relative error of products of whole numbers, far below one pixel. @choice wider than double precision, no source. */
const ROUNDING = 1e-9

/** Largest number in a ratio that people name. @choice common practice, no source: 2:3, 4:5, 16:9 and 17:11 are named. */
const LARGEST_PLAIN = 20
