/** A seeded stream of numbers in [0, 1): the same seed always gives the same drawing. */
export interface Random {
  next(): number
  /** A number in [low, high). */
  between(low: number, high: number): number
}

/** Mulberry32: small, fast and even enough for strands of hair and picture noise. */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
  return { next, between: (low, high) => low + (high - low) * next() }
}
