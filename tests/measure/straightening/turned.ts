import sharp, { type Sharp } from 'sharp'
import type { RgbPicture } from '../../../src/imaging/rgb-picture.ts'

export const FILLS = ['black', 'white', 'red', 'gray', 'transparent', 'smeared', 'mirrored'] as const
type Fill = (typeof FILLS)[number]

const COLORS = {
  black: { r: 0, g: 0, b: 0 },
  white: { r: 255, g: 255, b: 255 },
  red: { r: 170, g: 40, b: 60 },
  gray: { r: 128, g: 128, b: 128 },
  transparent: { r: 0, g: 0, b: 0, alpha: 0 },
}

export interface Turn {
  readonly fill: Fill
  /** Clockwise. */
  readonly degrees: number
  /** Whether the canvas keeps its size, or grows to hold all of the picture. */
  readonly canvas: 'kept' | 'grown'
  /** JPEG quality; a PNG without. */
  readonly quality?: number
}

/** The file that rotating a picture and not cropping it makes: the rotation and the fill are those of sharp (libvips). */
export async function turned({ data, width, height }: RgbPicture, turn: Turn): Promise<Buffer> {
  const { fill, degrees, canvas, quality } = turn
  const picture = sharp(data, { raw: { width, height, channels: 3 } })
  const angle = (Math.abs(degrees) * Math.PI) / 180
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  const size =
    canvas === 'kept'
      ? { width, height }
      : { width: Math.floor(width * cos + height * sin), height: Math.floor(width * sin + height * cos) }
  const whole = await rotated(picture, fill, degrees, Math.ceil(0.12 * Math.max(width, height)))
  const info = await sharp(whole).metadata()
  const left = Math.round((info.width - size.width) / 2)
  const top = Math.round((info.height - size.height) / 2)
  const cut = sharp(whole).extract({ left, top, ...size })
  return (quality === undefined ? cut.png() : cut.jpeg({ quality })).toBuffer()
}

async function rotated(picture: Sharp, fill: Fill, degrees: number, room: number): Promise<Buffer> {
  if (fill !== 'smeared' && fill !== 'mirrored') {
    const layer = fill === 'transparent' ? picture.ensureAlpha() : picture
    return layer.rotate(degrees, { background: COLORS[fill] }).png().toBuffer()
  }
  const sides = { top: room, bottom: room, left: room, right: room }
  const extended = await picture
    .extend({ ...sides, extendWith: fill === 'smeared' ? 'copy' : 'mirror' })
    .png()
    .toBuffer()
  return sharp(extended).rotate(degrees, { background: COLORS.black }).png().toBuffer()
}
