import sharp from 'sharp'
import { toXyzD50 } from '../../color/colorants.ts'
import { RGB_SPACES } from '../../color/rgb-spaces.ts'
import type { Transfer } from '../../color/transfer.ts'
import { type MatrixModel, readProfile } from '../../measure/file/icc/profile.ts'
import { type Matrix, transpose } from '../../numbers/matrix3.ts'

/** What the codes of a master's pixels mean. */
export interface SourceColor {
  /** Linear channels 0..1 to XYZ relative to D50. */
  readonly toXyz: Matrix
  readonly curves: readonly [Transfer, Transfer, Transfer]
}

/** A master, decoded upright, without color management: the codes of its own space. */
export interface Master {
  readonly pixels: Buffer
  readonly widthPx: number
  readonly heightPx: number
  readonly bits: 8 | 16
  readonly color: SourceColor
  /** Converted to sRGB, perceptually with black point, by the tables of its profile: how many of its pixels sRGB does not have nobody can tell. */
  readonly isTabled: boolean
  /** Where in the pixels the place 0, 0 of crops lies; at their corner unless told. */
  readonly origin?: { readonly x: number; readonly y: number }
}

/**
 * Decodes a master to its own codes. Profiles of colorants and curves are converted from by ourselves, without a space between
 * that could clip; by any other (CMYK, tables) the picture library converts, for which it uses LittleCMS.
 * @throws Error when it can't be decoded
 */
export async function decodeMaster(content: Buffer): Promise<Master> {
  const { icc, space, channels, depth } = await sharp(content).metadata()
  const model = icc ? (readProfile(icc)?.model ?? null) : null
  const isPlain = (space === 'srgb' || space === 'rgb16' || space === 'rgb') && channels >= 3
  const isOwn = isPlain && (icc === undefined || model !== null)
  const bits = depth === 'ushort' && (isOwn || space === 'grey16') ? 16 : 8
  const decoded = sharp(content, { ignoreIcc: isOwn, limitInputPixels: false }).autoOrient().removeAlpha()
  const { data, info } = await decoded
    .toColourspace(bits === 16 ? 'rgb16' : 'srgb')
    .raw({ depth: bits === 16 ? 'ushort' : 'uchar' })
    .toBuffer({ resolveWithObject: true })
  const color = model && isOwn ? colorOf(model) : SRGB
  const isTabled = space === 'cmyk' || (isPlain && !isOwn)
  return { pixels: data, widthPx: info.width, heightPx: info.height, bits, color, isTabled }
}

function colorOf({ colorants, curves }: MatrixModel): SourceColor {
  return { toXyz: transpose(colorants), curves }
}

/** What a picture without a profile is taken for. @source W3C, CSS Color Module Level 4, "Color Spaces of Untagged Colors". */
const SRGB: SourceColor = srgb()

function srgb(): SourceColor {
  const space = RGB_SPACES.find(({ name }) => name === 'sRGB')
  if (!space) throw new Error('sRGB is missing among the known spaces.')
  return { toXyz: toXyzD50(space.primaries), curves: [space.toLinear, space.toLinear, space.toLinear] }
}
