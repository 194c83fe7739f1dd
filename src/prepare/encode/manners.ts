import type { JpegOptions, WebpOptions } from 'sharp'
import type { Decodable } from '../../measure/schema/formats.ts'

/** How an encoder is to work, beside the quality. */
export interface Manner {
  readonly jpeg?: JpegOptions
  readonly webp?: WebpOptions
}

/** Where nothing limits the bytes. */
export const USUAL: Manner = { webp: { smartSubsample: true } }

/** A JPEG whose coefficients are chosen with regard to the bits that they take (trellis quantization). */
export const THOROUGH: Manner = { jpeg: { trellisQuantisation: true } }

/**
 * What is tried to get most out of a limit of bytes. None is the best for all pictures: trellis quantization makes JPEGs a tenth smaller but costs clean pictures more
 * than it saves; of WebP the higher effort is ahead at low qualities, the preset for drawings at high ones.
 */
export const MANNERS: Readonly<Record<Decodable, readonly Manner[]>> = {
  jpeg: [USUAL, THOROUGH],
  webp: [
    USUAL,
    { webp: { smartSubsample: true, effort: 6 } },
    { webp: { smartSubsample: true, preset: 'drawing' } },
  ],
  avif: [USUAL],
  png: [USUAL],
  tiff: [USUAL],
}
