import { createHash } from 'node:crypto'

/** One of several parts that a delivery is divided into. Numbers count from 1. */
export interface Shard {
  readonly number: number
  readonly of: number
}

// As many as runners could ever be asked for at once; more would leave parts of a file or none.
const MOST = 1000

/** Reads "2/5"; null when it is no part of a whole of at most 1000 parts. */
export function parseShard(text: string): Shard | null {
  const [, number = '', of = ''] = /^([0-9]{1,4})\/([0-9]{1,4})$/.exec(text) ?? []
  const shard = { number: Number(number), of: Number(of) }
  return shard.number >= 1 && shard.number <= shard.of && shard.of <= MOST ? shard : null
}

/**
 * Whether a file belongs to a part. It depends on nothing but the path below the delivery root, so that every machine
 * divides alike and no file moves when others come or go.
 */
export function isInShard(file: string, { number, of }: Shard): boolean {
  return createHash('sha256').update(file).digest().readUInt32BE(0) % of === number - 1
}

/** SHA-256 (hex) that tells one listing of files from another. @param files sorted paths */
export function listingHash(files: readonly string[]): string {
  const hash = createHash('sha256')
  for (const file of files) hash.update(file).update('\0')
  return hash.digest('hex')
}
