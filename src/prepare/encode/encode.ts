import type { Blocks } from '../containers/blocks.ts'
import type { Finished } from '../pixels/resample.ts'
import { type Encoding, encodedAt } from './encoded-at.ts'
import { blends, exaggerated, softened } from './filling.ts'
import { lumaErrors, shown } from './luma.ts'
import { MANNERS, USUAL } from './manners.ts'
import { type At, type Candidate, type EncodeAsk, highestOf } from './trials.ts'

export interface Encoded {
  readonly bytes: Buffer
  /** Null for formats without loss. */
  readonly quality: number | null
  /** Whether even the least quality gives more bytes than may be. */
  readonly tooLarge: boolean
}

/** Formats whose bytes don't depend on a quality, as they are used here. */
const LOSSLESS: readonly string[] = ['png', 'tiff']

/** Where the search for a quality begins. @choice files of portraits with a limit mostly end near it, no source. */
const START = 88

/** A file that leaves more of the limit is filled up. @choice no source. */
const FULL = 0.97

/** By so much a file that is full may be farther off than the nearest one, in squares of luma. @choice 5 % are a fifth of a dB, which nobody sees; no source. */
const EQUAL = 1.05

/**
 * The file whose luma is nearest to the picture's, of all those tried that are within the limit of bytes; of those that are
 * as good one that fills it.
 */
export async function encode(
  picture: Finished,
  encoding: Encoding,
  blocks: Blocks,
  ask: EncodeAsk,
): Promise<Encoded> {
  const { quality, mostBytes } = ask
  const { format } = encoding
  const at: At = (version, value, manner) => encodedAt(version, encoding, blocks, value, manner)
  const best = await at(picture, quality.max, USUAL)
  if (LOSSLESS.includes(format)) return { bytes: best, quality: null, tooLarge: best.length > mostBytes }
  if (best.length <= mostBytes) return { bytes: best, quality: quality.max, tooLarge: false }
  const whole: Candidate[] = []
  for (const manner of MANNERS[format]) {
    const highest = await highestOf(picture, manner, whole.at(-1)?.quality ?? START, ask, at)
    if (highest) whole.push(highest)
  }
  const blended = format === 'jpeg' && whole.length > 0 ? await blends(picture, whole, ask, at) : []
  const tried = await compared([...whole, ...blended], picture)
  const [nearest] = tried
  if (!nearest) {
    const bytes = await at(picture, quality.min, USUAL)
    return { bytes, quality: quality.min, tooLarge: bytes.length > mostBytes }
  }
  const isFull = ({ bytes }: Candidate) => bytes.length >= FULL * mostBytes
  if (isFull(nearest)) return encodedOf(nearest)
  // An AVIF takes seconds to encode.
  const softer = format === 'avif' ? [] : await softened(picture, whole, ask, at)
  const more = [...softer, ...(await exaggerated(picture, nearest, ask, at))]
  const all = [...tried, ...(await compared(more, picture))].sort((a, b) => a.error - b.error)
  const good = all.filter(({ error }) => error <= EQUAL * (all[0]?.error ?? 0))
  const fullest = [...good].sort((a, b) => b.bytes.length - a.bytes.length)
  return encodedOf(good.find(isFull) ?? fullest[0] ?? nearest)
}

/** Candidates and by how much they are off, the nearest first. */
async function compared(
  candidates: readonly Candidate[],
  picture: Finished,
): Promise<(Candidate & { readonly error: number })[]> {
  const found: (Candidate & { readonly error: number })[] = []
  for (const candidate of candidates) {
    const errors = lumaErrors(await shown(candidate.bytes, picture), picture)
    found.push({ ...candidate, error: errors.reduce((sum, value) => sum + value, 0) })
  }
  return found.sort((a, b) => a.error - b.error)
}

function encodedOf({ bytes, quality }: Candidate): Encoded {
  return { bytes, quality, tooLarge: false }
}
