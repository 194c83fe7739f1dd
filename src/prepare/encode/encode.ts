import type { Blocks } from '../containers/blocks.ts'
import type { Finished } from '../pixels/convert.ts'
import { blending } from './blending.ts'
import { type Encoding, encodedAt } from './encoded-at.ts'
import { lumaErrors, shown } from './luma.ts'
import { MANNERS, type Manner, THOROUGH, USUAL } from './manners.ts'
import { highestWithin, largestShareWithin } from './within.ts'

/** What a file may weigh and how well it has to be encoded. */
export interface EncodeAsk {
  /** Quality 1..100, both ends included. */
  readonly quality: { readonly min: number; readonly max: number }
  /** Bytes of the whole file; Infinity without a limit. */
  readonly mostBytes: number
}

export interface Encoded {
  readonly bytes: Buffer
  /** Null for formats without loss. */
  readonly quality: number | null
  /** Whether even the least quality gives more bytes than may be. */
  readonly tooLarge: boolean
}

/** Formats whose bytes don't depend on a quality, as they are used here. */
const LOSSLESS: readonly string[] = ['png', 'tiff']

/** One of the files that are within the limit. */
interface Candidate {
  readonly bytes: Buffer
  readonly quality: number
}

/** Encodes some version of the picture. */
type At = (version: Finished, quality: number, manner: Manner) => Promise<Buffer>

/** The file whose luma is nearest to the picture's, of all those tried that are within the limit of bytes. */
export async function encode(
  picture: Finished,
  encoding: Encoding,
  blocks: Blocks,
  ask: EncodeAsk,
): Promise<Encoded> {
  const { quality, mostBytes } = ask
  const at: At = (version, value, manner) => encodedAt(version, encoding, blocks, value, manner)
  const best = await at(picture, quality.max, USUAL)
  if (LOSSLESS.includes(encoding.format))
    return { bytes: best, quality: null, tooLarge: best.length > mostBytes }
  if (best.length <= mostBytes) return { bytes: best, quality: quality.max, tooLarge: false }
  const candidates: Candidate[] = []
  for (const manner of MANNERS[encoding.format]) {
    const highest = await highestOf(picture, manner, candidates.at(-1)?.quality ?? START, ask, at)
    if (highest) candidates.push(highest)
  }
  if (encoding.format === 'jpeg') candidates.push(...(await blends(picture, candidates, ask, at)))
  const chosen = await nearest(candidates, picture)
  if (chosen) return { ...chosen, tooLarge: false }
  return { bytes: await at(picture, quality.min, USUAL), quality: quality.min, tooLarge: true }
}

/** Where the search for a quality begins. @choice files of portraits with a limit mostly end near it, no source. */
const START = 88

async function highestOf(
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
  return bytes && highest !== null ? { bytes, quality: highest } : null
}

/** Qualities in which thorough and usual encoding are blended. @choice a lower one was never the best on drawn portraits. */
const BLENDS = 2

/** JPEGs of the qualities that fit only when encoded thoroughly: as much of each as fits is encoded as usual, which shows more. */
async function blends(
  picture: Finished,
  candidates: readonly Candidate[],
  { mostBytes, quality }: EncodeAsk,
  at: At,
): Promise<Candidate[]> {
  const highest = Math.max(...candidates.map((one) => one.quality))
  const found: Candidate[] = []
  for (let value = highest; value > highest - BLENDS && value >= quality.min; value--) {
    const whole = await at(picture, value, USUAL)
    if (whole.length <= mostBytes) break
    const coarse = await at(picture, value, THOROUGH)
    const blend = blending(picture, await shown(coarse, picture))
    const made = new Map<number, Buffer>()
    const bytesAt = async (share: number) => {
      const bytes = await at(blend(share), value, USUAL)
      made.set(share, bytes)
      return bytes.length
    }
    const ends = [coarse.length, whole.length] as const
    const share = await largestShareWithin({ bytesAt, mostBytes }, ends)
    const bytes = made.get(share ?? -1)
    if (bytes) found.push({ bytes, quality: value })
  }
  return found
}

async function nearest(candidates: readonly Candidate[], picture: Finished): Promise<Candidate | null> {
  let [chosen, least]: [Candidate | null, number] = [null, Infinity]
  for (const candidate of candidates) {
    const errors = lumaErrors(await shown(candidate.bytes, picture), picture)
    const error = errors.reduce((sum, value) => sum + value, 0)
    if (error < least) [chosen, least] = [candidate, error]
  }
  return chosen
}
