import type { AvifOptions, JpegOptions, WebpOptions } from 'sharp'
import type { Decodable } from '../../measure/schema/formats.ts'

/** How an encoder is to work, beside the quality. */
export interface Manner {
  readonly jpeg?: JpegOptions
  readonly webp?: WebpOptions
  readonly avif?: AvifOptions
}

/** Where nothing limits the bytes. */
export const USUAL: Manner = { webp: { smartSubsample: true } }

/** A JPEG whose coefficients are chosen with regard to the bits that they take (trellis quantization). */
export const THOROUGH: Manner = { jpeg: { trellisQuantisation: true } }

/** WebP whose bits go where they bring luma nearest, without shaping noise or smoothing edges of blocks. */
const EXACT = { smartSubsample: true, preset: 'icon' } as const

/**
 * What is tried to get most out of a limit of bytes. None is the best for all pictures: trellis quantization makes JPEGs a tenth smaller but costs clean pictures more
 * than it saves; of WebP the higher effort is ahead with most, of AVIF the tuning to structure with some.
 */
export const MANNERS: Readonly<Record<Decodable, readonly Manner[]>> = {
  jpeg: [USUAL, THOROUGH],
  webp: [{ webp: EXACT }, { webp: { ...EXACT, effort: 6 } }],
  avif: [USUAL, { avif: { tune: 'ssim' } }],
  png: [USUAL],
  tiff: [USUAL],
}
