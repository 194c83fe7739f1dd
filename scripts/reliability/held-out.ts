/** How far a reading is off, and the error told with it. */
export interface Reading {
  /** Readings of one sitter are never both learned from and tested on. */
  readonly sitter: string
  /** Measured less true. */
  readonly error: number
  readonly told: number
}

/** Parts that the sitters are divided into; each is tested on what was learned from the others. @choice common practice. */
const PARTS = 10

/** Share of the truths that are to be within the error told. @source definition: `errorOf` in src/measure/schema/common.ts */
const HELD = 0.95

/** What the errors told have to be multiplied by, so that 95 of 100 truths are within them. */
export function scaleOf(readings: readonly Reading[]): number {
  const shares = readings.map(({ error, told }) => Math.abs(error) / told).sort((a, b) => a - b)
  return shares[Math.ceil(HELD * shares.length) - 1] ?? 1
}

/** Each reading with its error told scaled by what the other sitters ask for. */
export function heldOutTold(readings: readonly Reading[]): Reading[] {
  const sitters = [...new Set(readings.map(({ sitter }) => sitter))].sort()
  const partOf = ({ sitter }: Reading) => sitters.indexOf(sitter) % PARTS
  return readings.map((one) => {
    const scale = scaleOf(readings.filter((other) => partOf(other) !== partOf(one)))
    return { ...one, told: scale * one.told }
  })
}

/** The share of truths within `factor` times the error told. */
export function shareWithin(readings: readonly Reading[], factor: number): number {
  return readings.filter(({ error, told }) => Math.abs(error) <= factor * told).length / readings.length
}
