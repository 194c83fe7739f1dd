import type { JpegSegments } from '../bytes/segments.ts'

/** Quantization of luminance, row by row. @source ITU-T T.81, Table K.1. */
const LUMINANCE = [
  16, 11, 10, 16, 24, 40, 51, 61, 12, 12, 14, 19, 26, 58, 60, 55, 14, 13, 16, 24, 40, 57, 69, 56, 14, 17, 22,
  29, 51, 87, 80, 62, 18, 22, 37, 56, 68, 109, 103, 77, 24, 35, 55, 64, 81, 104, 113, 92, 49, 64, 78, 87, 103,
  121, 120, 101, 72, 92, 95, 98, 112, 100, 103, 99,
]
/** Quantization of chrominance, row by row. @source ITU-T T.81, Table K.2. */
const CHROMINANCE = [
  17, 18, 24, 47, 99, 99, 99, 99, 18, 21, 26, 66, 99, 99, 99, 99, 24, 26, 56, 99, 99, 99, 99, 99, 47, 66, 99,
  99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99, 99,
  99, 99, 99, 99, 99, 99, 99, 99, 99, 99,
]

/** Place in the row-by-row table of the k-th value stored. @source ITU-T T.81, Figure A.6. */
const ZIGZAG = [
  0, 1, 8, 16, 9, 2, 3, 10, 17, 24, 32, 25, 18, 11, 4, 5, 12, 19, 26, 33, 40, 48, 41, 34, 27, 20, 13, 6, 7,
  14, 21, 28, 35, 42, 49, 56, 57, 50, 43, 36, 29, 22, 15, 23, 30, 37, 44, 51, 58, 59, 52, 45, 38, 31, 39, 46,
  53, 60, 61, 54, 47, 55, 62, 63,
]

/**
 * Annex K table scaled to a quality 1..100, in zig-zag order.
 * @param limit largest value
 * @source jpeg_quality_scaling and jpeg_add_quant_table of the Independent JPEG Group's library.
 */
function scaledTable(base: readonly number[], quality: number, limit: number): number[] {
  const percent = quality < 50 ? Math.floor(5000 / quality) : 200 - 2 * quality
  return ZIGZAG.map((place) => {
    const scaled = Math.floor(((base[place] as number) * percent + 50) / 100)
    return Math.min(Math.max(scaled, 1), limit)
  })
}

/** Largest values of baseline's tables, and of the wider ones that low qualities need. @source jpeg_add_quant_table of the Independent JPEG Group's library. */
const LIMITS = [255, 32767]

interface Scaled {
  readonly quality: number
  /** The tables of chrominance that go with it. */
  readonly chrominance: readonly string[]
}

let byLuminance: ReadonlyMap<string, Scaled> | undefined

/** What each table of luminance stands for that there is. Made for the first JPEG: most threads read none. */
function scaledBy(luminance: string): Scaled | undefined {
  byLuminance ??= new Map(
    Array.from({ length: 100 }, (_, n) => n + 1).flatMap((quality) => {
      const tables = (base: readonly number[]) =>
        LIMITS.map((limit) => scaledTable(base, quality, limit).join())
      const scaled = { quality, chrominance: tables(CHROMINANCE) }
      return tables(LUMINANCE).map((table) => [table, scaled] as const)
    }),
  )
  return byLuminance.get(luminance)
}

/**
 * The IJG quality, 1..100, when every component's table is exactly the scaling of Annex K to one and the same
 * quality (luminance for the first component and wherever it is shared, chrominance else); null when not, for
 * then there is no such number.
 */
export function ijgQuality({ frame, tables }: JpegSegments): number | null {
  const [first, ...others] = (frame?.components ?? []).map(({ table }) => tables.get(table)?.join() ?? '')
  if (first === undefined) return null
  const scaled = scaledBy(first)
  if (scaled === undefined) return null
  // By quality and not the other way round: up to quality 3 the chrominance tables of baseline are all the same.
  const fits = (table: string) => table === first || scaled.chrominance.includes(table)
  return others.every(fits) ? scaled.quality : null
}
