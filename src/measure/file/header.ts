import type { Metadata } from 'sharp'
import type { Color, FileMeasurements } from '../schema/measurements.ts'
import type { Container } from './container/container.ts'
import { exifPpi } from './container/resolution.ts'
import { isOnItsSide } from './exif/orientation.ts'
import { knownProfile, UNKNOWN } from './icc/known-profile.ts'
import { readPlainHeader } from './jpeg/plain-header.ts'

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
  | 'others'
> & { readonly widthPx: number; readonly heightPx: number }

/**
 * Reads the header of a picture in one of the decodable formats.
 * @throws Error in the decoder's words when it finds no valid header
 */
export async function readHeader(content: Buffer, container: Container): Promise<Header> {
  return plainHeader(content, container) ?? decodersHeader(content, container)
}

function plainHeader(content: Buffer, container: Container): Header | null {
  const plain = container.segments && readPlainHeader(content, container.segments)
  if (!plain) return null
  const { width, height, channels, orientationTag, exif } = plain
  const onItsSide = isOnItsSide(orientationTag)
  return {
    widthPx: onItsSide ? height : width,
    heightPx: onItsSide ? width : height,
    orientationTag,
    ppi: (exif ? exifPpi(exif) : null) ?? container.ppi,
    bitsPerChannel: container.bitsPerChannel,
    channels,
    hasAlpha: false,
    color: colorOf({ space: channels === 1 ? 'b-w' : 'srgb' }, container),
    jpeg: container.jpeg,
    others: container.others,
  }
}

async function decodersHeader(content: Buffer, container: Container): Promise<Header> {
  // Loaded when it is first asked: most headers do not need the library.
  const { decoder } = await import('./decoder.ts')
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
    others: container.others,
  }
}

const SPACES: Readonly<Record<string, Color['space']>> = {
  srgb: 'rgb',
  rgb: 'rgb',
  rgb16: 'rgb',
  scrgb: 'rgb',
  'b-w': 'gray',
  grey16: 'gray',
  cmyk: 'cmyk',
}

/** Null for a space that has no name here, such as a TIFF in CIE L*a*b*. */
function colorOf(
  metadata: Pick<Metadata, 'space' | 'icc'>,
  { icc: ownIcc, statedSpace }: Container,
): Color | null {
  const space = SPACES[metadata.space]
  if (!space) return null
  const icc = ownIcc === undefined ? (metadata.icc ?? null) : ownIcc
  if (icc === null) return { space, profile: statedSpace ?? 'none', profileName: null }
  const { identity, name } = icc === 'broken' ? UNKNOWN : knownProfile(icc)
  // A file that states one space and embeds another is read in different ways by different programs.
  const agrees = statedSpace === null || statedSpace === identity
  return { space, profile: agrees ? identity : 'other', profileName: name }
}
