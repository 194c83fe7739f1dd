import sharp, { type Sharp } from 'sharp'
import { ACCURACY_SET, type AccuracyCase } from '../../../../examples/drawing/accuracy-set.ts'
import type { Frame } from '../../../../examples/drawing/frame.ts'
import type { RgbPicture } from '../../../../src/imaging/rgb-picture.ts'
import type { DecodedPicture } from '../../../../src/measure/file/decoded-picture.ts'
import { drawnPortrait } from '../../../drawn.ts'

/** Sitters of differing tones, hair and backdrops. */
export const SITTERS: readonly AccuracyCase[] = ACCURACY_SET.filter((_, index) => index % 13 === 0)

const SIZE = { widthPx: 400, heightPx: 500 }
const kept = new Map<string, Promise<Buffer>>()

/** A sitter as PNG, 400 x 500 px; each is drawn once. */
export function drawn({ name, look, frame }: AccuracyCase, changes: Partial<Frame> = {}): Promise<Buffer> {
  const draw = async () => {
    const { pixels, widthPx, heightPx } = await drawnPortrait(look, { ...frame, ...SIZE, ...changes })
    return sharp(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } })
      .png()
      .toBuffer()
  }
  const key = name + JSON.stringify(changes)
  const picture = kept.get(key) ?? draw()
  kept.set(key, picture)
  return picture
}

export async function rgb(image: Sharp): Promise<RgbPicture> {
  const { data, info } = await image
    .toColourspace('srgb')
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true })
  return { data, width: info.width, height: info.height }
}

export async function decoded(image: Sharp): Promise<DecodedPicture> {
  const { data, info } = await image
    .toColourspace('srgb')
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true })
  return { data, width: info.width, height: info.height, transparentShare: 0 }
}

/** The preview that a program would embed: 160 px, JPEG. */
export async function thumbnail(picture: Buffer, edge = 160, quality = 80): Promise<Buffer> {
  return sharp(picture).resize(edge, edge, { fit: 'inside' }).jpeg({ quality }).toBuffer()
}

/** Part of a picture, in fractions of its width and height. */
export async function part(
  picture: Buffer,
  x: number,
  y: number,
  width: number,
  height: number,
): Promise<Sharp> {
  const { width: w, height: h } = await sharp(picture).metadata()
  return sharp(picture).extract({
    left: Math.round(x * w),
    top: Math.round(y * h),
    width: Math.round(width * w),
    height: Math.round(height * h),
  })
}

/** A color far from that of a place. */
export async function contrasting(picture: Buffer, x: number, y: number): Promise<string> {
  const small = await rgb((await part(picture, x - 0.03, y - 0.03, 0.06, 0.06)).resize(1, 1))
  return (small.data[1] as number) > 120 ? 'rgb(30,20,20)' : 'rgb(235,220,210)'
}

/** The picture with a round spot, as a retoucher would take one out; place and diameter in fractions of the long edge. */
export async function spotted(
  picture: Buffer,
  x: number,
  y: number,
  diameter: number,
  color: string,
): Promise<Buffer> {
  const { width, height } = await sharp(picture).metadata()
  const d = Math.round(diameter * Math.max(width, height))
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${d}" height="${d}"><circle cx="${d / 2}" cy="${d / 2}" r="${d / 2}" fill="${color}"/></svg>`
  const place = { left: Math.round(x * width - d / 2), top: Math.round(y * height - d / 2) }
  return sharp(picture)
    .composite([{ input: Buffer.from(svg), ...place }])
    .png()
    .toBuffer()
}
