import sharp from 'sharp'
import { SITTERS } from '../../../../examples/drawing/sitters.ts'
import type { RgbPicture } from '../../../../src/imaging/rgb-picture.ts'
import type { Place } from '../../../../src/measure/face/irises/mesh-eyes.ts'
import { drawnPortrait } from '../../../drawn.ts'

export interface Eyes {
  readonly picture: RgbPicture
  readonly irises: readonly [Place, Place]
  /** Pixels of the picture per pixel at an inter-eye distance of 240 px. */
  readonly scale: number
}

// Portrait of 960 x 1200 px: about 200 px between the eyes.
const FRAME = {
  placement: { crownY: 0.05, chinY: 0.68 },
  backdrop: { color: 244 },
  key: { side: 'left', ratioStops: 0.6 },
} as const

/** The part of a drawn portrait about the eyes. */
export async function drawnEyes(index: number, widthPx = 960): Promise<Eyes> {
  const sitter = SITTERS[index]
  if (!sitter) throw new Error(`There is no sitter ${index}.`)
  const heightPx = Math.round(widthPx * 1.25)
  const { pixels, truth } = await drawnPortrait(sitter.look, { ...FRAME, widthPx, heightPx })
  const [left, right] = [truth.leftEye, truth.rightEye].map(({ x, y }): Place => [x * widthPx, y * heightPx])
  if (!left || !right) throw new Error('There are no eyes.')
  return eyesOf({ data: pixels, width: widthPx, height: heightPx }, [left, right])
}

/** The part of a picture about the eyes and the nose, with room for the widest blur. */
async function eyesOf(
  { data, width, height }: RgbPicture,
  [left, right]: readonly [Place, Place],
): Promise<Eyes> {
  const distance = Math.hypot(right[0] - left[0], right[1] - left[1])
  const [x, y] = [
    Math.floor(left[0] - 0.7 * distance),
    Math.floor(Math.min(left[1], right[1]) - 0.6 * distance),
  ]
  const crop = { left: Math.max(0, x), top: Math.max(0, y) }
  const piece = await sharp(data, { raw: { width, height, channels: 3 } })
    .extract({
      ...crop,
      width: Math.min(width - crop.left, Math.ceil(2.4 * distance)),
      height: Math.min(height - crop.top, Math.ceil(1.6 * distance)),
    })
    .raw()
    .toBuffer({ resolveWithObject: true })
  return {
    picture: { data: piece.data, width: piece.info.width, height: piece.info.height },
    irises: [
      [left[0] - crop.left, left[1] - crop.top],
      [right[0] - crop.left, right[1] - crop.top],
    ],
    scale: distance / 240,
  }
}

/** Blurred by a Gaussian. By default sharp cuts it off where it falls to a fifth, which leaves 0.8 of its sigma. */
export async function blurred({ data, width, height }: RgbPicture, sigma: number): Promise<RgbPicture> {
  const blur = await sharp(data, { raw: { width, height, channels: 3 } })
    .blur({ sigma, minAmplitude: 0.001, precision: 'float' })
    .raw()
    .toBuffer()
  return { data: blur, width, height }
}

/**
 * Blurred by a disc, as a lens out of focus blurs (geometrical optics; Born and Wolf, Principles of Optics, from memory), in
 * gray. A disc of radius r has the variance r² / 4 along any line.
 */
export function discBlurred({ data, width, height }: RgbPicture, radius: number): RgbPicture {
  const reach = Math.ceil(radius)
  const disc: { x: number; y: number; share: number }[] = []
  for (let y = -reach; y <= reach; y++) {
    for (let x = -reach; x <= reach; x++) {
      const share = Math.min(1, Math.max(0, radius + 0.5 - Math.hypot(x, y)))
      if (share > 0) disc.push({ x, y, share })
    }
  }
  const total = disc.reduce((sum, { share }) => sum + share, 0)
  const blur = new Uint8Array(data.length)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let sum = 0
      for (const place of disc) {
        const row = Math.min(height - 1, Math.max(0, y + place.y))
        const column = Math.min(width - 1, Math.max(0, x + place.x))
        sum += place.share * (data[3 * (row * width + column) + 1] as number)
      }
      blur.fill(Math.round(sum / total), 3 * (y * width + x), 3 * (y * width + x) + 3)
    }
  }
  return { data: blur, width, height }
}
