import sharp, { type Sharp } from 'sharp'
import type { Moment } from '../../../examples/drawing/moment.ts'
import { SITTERS } from '../../../examples/drawing/sitters.ts'
import { type ReadySignature, ready } from '../../../src/likeness/ready-signature.ts'
import { decodePicture } from '../../../src/measure/file/decode.ts'
import { measurePicture } from '../../../src/measure/picture.ts'
import type { Face } from '../../../src/measure/schema/measurements.ts'
import { drawnPortrait } from '../../drawn.ts'

export interface Shown {
  readonly what: string
  readonly sitter: string
  readonly face: Face
  readonly signature: ReadySignature
}

const SIZE = { widthPx: 480, heightPx: 600 }

/** One frame of a drawn sitter as a lossless file; sitters never sit quite alike from frame to frame. */
export async function drawn(index: number, frame: number, moment: Partial<Moment>): Promise<Buffer> {
  const sitter = SITTERS[index]
  if (!sitter) throw new Error(`There is no sitter ${index}.`)
  const { pixels, widthPx, heightPx } = await drawnPortrait(sitter.look, {
    ...SIZE,
    placement: { crownY: 0.09 + ((frame * 7 + index) % 5) * 0.01, chinY: 0.58 + (index % 4) * 0.015 },
    tiltDeg: ((index * 3 + frame * 5) % 7) - 3,
    offsetX: (((index + frame) % 5) - 2) * 0.01,
    backdrop: { color: 240 },
    key: { side: 'left', ratioStops: 0.6 },
    noise: 1.2,
    moment,
  })
  return sharp(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .png()
    .toBuffer()
}

export async function shown(what: string, sitter: string, file: Buffer): Promise<Shown> {
  const { face, signature } = await measurePicture(await decodePicture(file, 1e8), ['face', 'signature'])
  const made = signature && ready(signature)
  if (!face || !made) throw new Error(`${what} was not measured.`)
  return { what, sitter, face, signature: made }
}

/** The file saved again at quality 50, at 25 % of its size, cropped by 10 %, and mirrored. */
export async function copies(file: Buffer): Promise<readonly (readonly [what: string, file: Buffer])[]> {
  const { width, height } = await sharp(file).metadata()
  const part = {
    left: Math.round(width * 0.06),
    top: Math.round(height * 0.02),
    width: Math.round(width * 0.9),
    height: Math.round(height * 0.9),
  }
  const saved = (image: Sharp, quality: number) => image.jpeg({ quality }).toBuffer()
  return [
    ['at quality 50', await saved(sharp(file), 50)],
    ['at 25 %', await saved(sharp(file).resize(Math.round(width / 4)), 90)],
    ['cropped by 10 %', await saved(sharp(file).extract(part), 90)],
    ['mirrored', await saved(sharp(file).flop(), 90)],
  ]
}

/** Cut square and sized down, as for a page, and made lighter, as retouchers do. */
export async function webVariant(file: Buffer, sizePx: number, gain: number): Promise<Buffer> {
  const { width, height } = await sharp(file).metadata()
  const top = Math.round(0.02 * height)
  return sharp(file)
    .extract({ left: 0, top, width, height: width })
    .resize(sizePx, sizePx)
    .linear(gain, 0)
    .jpeg({ quality: 85 })
    .toBuffer()
}

/** As in a mirror. */
export async function flipped(file: Buffer): Promise<Buffer> {
  return sharp(file).flop().jpeg({ quality: 90 }).toBuffer()
}
