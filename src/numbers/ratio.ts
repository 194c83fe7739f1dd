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
  return off <= Math.max(wide, high) * (1 + 1e-9)
}
