import type { Finished } from '../pixels/resample.ts'
import type { Manner } from './manners.ts'
import { highestWithin, largestShareWithin } from './within.ts'

/** What a file may weigh and how well it has to be encoded. */
export interface EncodeAsk {
  /** Quality 1..100, both ends included. */
  readonly quality: { readonly min: number; readonly max: number }
  /** Bytes of the whole file; Infinity without a limit. */
  readonly mostBytes: number
}

/** One of the files that are within the limit. */
export interface Candidate {
  readonly bytes: Buffer
  readonly quality: number
  readonly manner: Manner
}

/** Encodes some version of the picture. */
export type At = (version: Finished, quality: number, manner: Manner) => Promise<Buffer>

/** The picture at the highest quality within the limit; null when not even the least is. */
export async function highestOf(
  picture: Finished,
  manner: Manner,
  start: number,
  { quality, mostBytes }: EncodeAsk,
  at: At,
): Promise<Candidate | null> {
  const made = new Map<number, Buffer>()
  const bytesAt = async (value: number) => {
    const bytes = await at(picture, value, manner)
    made.set(value, bytes)
    return bytes.length
  }
  const highest = await highestWithin({ bytesAt, mostBytes }, quality, start)
  const bytes = made.get(highest ?? 0)
  return bytes && highest !== null ? { bytes, quality: highest, manner } : null
}

/**
 * Of versions that take more bytes with a larger share, the one with the largest share that is within the limit.
 * @param versions the picture by a share 0..1
 */
export async function largestOf(
  versions: (share: number) => Finished,
  { quality, manner }: Pick<Candidate, 'quality' | 'manner'>,
  { mostBytes }: Pick<EncodeAsk, 'mostBytes'>,
  at: At,
): Promise<Candidate | null> {
  const made = new Map<number, Buffer>()
  const bytesAt = async (share: number) => {
    const bytes = await at(versions(share), quality, manner)
    made.set(share, bytes)
    return bytes.length
  }
  const ends = [await bytesAt(0), await bytesAt(1)] as const
  if (ends[0] > mostBytes) return null
  const share = ends[1] <= mostBytes ? 1 : await largestShareWithin({ bytesAt, mostBytes }, ends)
  const bytes = made.get(share ?? 0)
  return bytes ? { bytes, quality, manner } : null
}
