/** Uniform numbers in 0..1 from a seed, the same on every machine (Mulberry32, public domain). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = Math.imul(state ^ (state >>> 15), state | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32
  }
}

/** Normal deviates with mean 0 and standard deviation 1 (Box and Muller 1958). */
export function gaussian(seed: number): () => number {
  const uniform = seeded(seed)
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform())
}
