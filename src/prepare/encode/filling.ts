import sharp from 'sharp'
import type { Finished } from '../pixels/resample.ts'
import { blending } from './blending.ts'
import { shown } from './luma.ts'
import { THOROUGH, USUAL } from './manners.ts'
import { type At, type Candidate, type EncodeAsk, largestOf } from './trials.ts'

/** Qualities in which thorough and usual encoding are blended. @choice a lower one was never the best on drawn portraits. */
const BLENDS = 2

/** JPEGs of the qualities that fit only when encoded thoroughly: as much of each as fits is encoded as usual, which shows more. */
export async function blends(
  picture: Finished,
  candidates: readonly Candidate[],
  ask: EncodeAsk,
  at: At,
): Promise<Candidate[]> {
  const highest = Math.max(...candidates.map((one) => one.quality))
  const found: Candidate[] = []
  for (let quality = highest; quality > highest - BLENDS && quality >= ask.quality.min; quality--) {
    const coarse = await shown(await at(picture, quality, THOROUGH), picture)
    const blend = await largestOf(blending(picture, coarse), { quality, manner: USUAL }, ask, at)
    if (blend) found.push(blend)
  }
  return found
}

/** Standard deviation of the blur that pictures are softened by, px. @choice takes away what is finest, and mostly noise; no source. */
const SIGMA_PX = 0.7

/** Shares of the blur, the least first. @choice with more it errs by more than the next quality gains, on drawn portraits. */
const SOFT = [0.02, 0.04, 0.06, 0.08]

/** Pictures of the next quality that fit when they are softened a little. */
export async function softened(
  picture: Finished,
  candidates: readonly Candidate[],
  { quality: { max }, mostBytes }: EncodeAsk,
  at: At,
): Promise<Candidate[]> {
  const blurred = await blurredBy(picture, SIGMA_PX)
  const found: Candidate[] = []
  for (const { quality, manner } of candidates) {
    if (quality >= max) continue
    for (const share of SOFT) {
      const codes = picture.codes.map((code, n) => Math.round(code + share * ((blurred[n] as number) - code)))
      const bytes = await at({ ...picture, codes }, quality + 1, manner)
      if (bytes.length > mostBytes) continue
      found.push({ bytes, quality: quality + 1, manner })
      break
    }
  }
  return found
}

function blurredBy({ codes, channels, widthPx, heightPx }: Finished, sigma: number): Promise<Buffer> {
  const picture = sharp(codes, { raw: { width: widthPx, height: heightPx, channels } }).blur(sigma)
  return picture
    .toColourspace(channels === 1 ? 'b-w' : 'srgb')
    .raw()
    .toBuffer()
}

/** By so much of what a file is off the picture is changed the other way. @choice with more it errs by more, on drawn portraits. */
const MORE = 0.3

/** So much of the limit is aimed at, since what is exaggerated errs by more. @choice 1.5 % below it, no source. */
const AIM = 0.985

/** The picture with what a file of it lost exaggerated, where that is most, so that another one of its quality keeps it; as much as fits. */
export async function exaggerated(
  picture: Finished,
  file: Candidate,
  ask: EncodeAsk,
  at: At,
): Promise<Candidate[]> {
  const { codes } = await shown(file.bytes, picture)
  const more = picture.codes.map((code, n) =>
    Math.min(Math.max(Math.round(code + MORE * (code - (codes[n] as number))), 0), 255),
  )
  const mostBytes = AIM * ask.mostBytes
  const found = await largestOf(blending({ ...picture, codes: more }, picture), file, { mostBytes }, at)
  return found ? [found] : []
}
