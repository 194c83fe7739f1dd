/** Uniform numbers in 0..1, see tests/random.ts. */
export type Random = () => number

/** A whole number from 0 up to, and without, `limit`. */
export function below(random: Random, limit: number): number {
  return Math.floor(random() * limit)
}

/** @throws Error when there is nothing to pick from */
export function pick<T>(random: Random, items: readonly T[]): T {
  if (items.length === 0) throw new Error('There is nothing to pick from.')
  return items[below(random, items.length)] as T
}

export function happens(random: Random, share: number): boolean {
  return random() < share
}

/** Two places in order, both within the content. */
export function span(random: Random, length: number, longest: number): [from: number, to: number] {
  const from = below(random, length)
  return [from, Math.min(length, from + 1 + below(random, longest))]
}

export function bytesOf(random: Random, length: number): Buffer {
  return Buffer.from(Uint8Array.from({ length }, () => below(random, 256)))
}
