import type { Metadata } from 'sharp'
import type { Container } from './container/container.ts'
import { exifPpi } from './container/resolution.ts'
import { decoder } from './decoder.ts'
import { identify } from './icc/identity.ts'
import { readProfile } from './icc/profile.ts'
import type { Color, FileMeasurements } from './measurements.ts'

/** What a picture's header says, without decoding it. */
export type Header = Pick<
  FileMeasurements,
  | 'widthPx'
  | 'heightPx'
  | 'orientationTag'
  | 'ppi'
  | 'bitsPerChannel'
  | 'channels'
  | 'hasAlpha'
  | 'color'
  | 'jpeg'
> & { readonly widthPx: number; readonly heightPx: number }

/**
 * Reads the header of a picture in one of the decodable formats.
 * @throws Error in the decoder's words when it finds no valid header
 */
export async function readHeader(content: Buffer, container: Container): Promise<Header> {
  // The size is judged against our own limit, with a sentence of our own.
  const metadata = await decoder(container.lean ?? content, { limitInputPixels: false }).metadata()
  return {
    widthPx: metadata.autoOrient.width,
    heightPx: metadata.autoOrient.height,
    orientationTag: metadata.orientation ?? null,
    ppi: (metadata.exif ? exifPpi(metadata.exif) : null) ?? container.ppi,
    bitsPerChannel: metadata.bitsPerSample ?? container.bitsPerChannel,
    channels: metadata.channels,
    hasAlpha: metadata.hasAlpha,
    color: colorOf(metadata, container),
    jpeg: container.jpeg,
  }
}

const SPACES: Readonly<Record<string, Color['space']>> = {
  srgb: 'rgb',
  rgb: 'rgb',
  rgb16: 'rgb',
  scrgb: 'rgb',
  'b-w': 'grey',
  grey16: 'grey',
  cmyk: 'cmyk',
}

/** Null for a space that has no name here, such as a TIFF in CIE L*a*b*. */
function colorOf(metadata: Metadata, { icc: ownIcc, statedSpace }: Container): Color | null {
  const space = SPACES[metadata.space]
  if (!space) return null
  const icc = ownIcc === undefined ? (metadata.icc ?? null) : ownIcc
  if (icc === null) return { space, profile: statedSpace ?? 'none', profileName: null }
  const profile = icc === 'broken' ? null : readProfile(icc)
  const identity = profile?.model ? identify(profile.model) : 'other'
  // A file that states one space and embeds another is read in different ways by different programs.
  const agrees = statedSpace === null || statedSpace === identity
  return { space, profile: agrees ? identity : 'other', profileName: profile?.name ?? null }
}
