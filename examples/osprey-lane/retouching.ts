import sharp, { type Sharp } from 'sharp'
import type { Portrait } from '../drawing/portrait.ts'
import { fringed, type Hole, holed } from './cut-out.ts'

/** What a retoucher did to the finished picture. */
export interface Retouch {
  /** A spot lightened to white: its middle, and its width, in fractions of the frame. */
  readonly burntOut?: { readonly x: number; readonly y: number; readonly width: number }
  /** A mask over the face left a color on it: what red, green and blue were multiplied by. */
  readonly cast?: readonly [red: number, green: number, blue: number]
  /** The skin was smoothed until nothing of its texture was left. */
  readonly smoothed?: true
  /** An eye was taken from a flipped frame. */
  readonly eyeReplaced?: 'left' | 'right'
  /** It was made smaller to this share and larger again. */
  readonly enlargedFrom?: number
  /** The sitter was cut out with a line of the old backdrop, of this red, green and blue. */
  readonly fringe?: readonly [red: number, green: number, blue: number]
  /** And with a hole. */
  readonly hole?: Hole
  /** It was sharpened far too much. */
  readonly sharpened?: true
  /** The whole picture was flipped. */
  readonly flipped?: true
}

/** Blur of smoothed skin, share of the inter-eye distance; and from how many codes on something is an edge, which stays. */
const SMOOTHING = 0.02
const EDGE_CODES = 14

/** A cut picture with its place in the portrait. */
export interface Cut {
  readonly pixels: Buffer
  readonly widthPx: number
  readonly heightPx: number
  /** A place in the portrait, in fractions of it, as px of the cut. */
  readonly placed: (point: { readonly x: number; readonly y: number }) => readonly [x: number, y: number]
}

/** The cut picture after the retouch. */
export async function retouched(cut: Cut, { truth }: Portrait, retouch: Retouch): Promise<Buffer> {
  let { pixels } = cut
  const [leftX, leftY] = cut.placed(truth.leftEye)
  const [rightX, rightY] = cut.placed(truth.rightEye)
  const eyeDistance = Math.hypot(rightX - leftX, rightY - leftY)
  if (retouch.burntOut) pixels = await burntOut({ ...cut, pixels }, retouch.burntOut)
  const middle = [(leftX + rightX) / 2, (leftY + rightY) / 2 + 0.5 * eyeDistance] as const
  const reach = [1.05 * eyeDistance, 1.5 * eyeDistance] as const
  if (retouch.cast) {
    const gains = retouch.cast
    pixels = within({ ...cut, pixels }, middle, reach, (x, y, channel) =>
      Math.min(255, (pixels[3 * (y * cut.widthPx + x) + channel] as number) * (gains[channel] as number)),
    )
  }
  if (retouch.smoothed) {
    const smooth = await opened({ ...cut, pixels })
      .blur(SMOOTHING * eyeDistance)
      .raw()
      .toBuffer()
    pixels = within({ ...cut, pixels }, middle, reach, (x, y, channel) => {
      const at = 3 * (y * cut.widthPx + x) + channel
      const [before, after] = [pixels[at] as number, smooth[at] as number]
      return Math.abs(before - after) > EDGE_CODES ? before : after
    })
  }
  if (retouch.eyeReplaced) {
    const [eyeX, eyeY] = retouch.eyeReplaced === 'left' ? [leftX, leftY] : [rightX, rightY]
    const [otherX, otherY] = retouch.eyeReplaced === 'left' ? [rightX, rightY] : [leftX, leftY]
    pixels = within(
      { ...cut, pixels },
      [eyeX, eyeY],
      [0.32 * eyeDistance, 0.16 * eyeDistance],
      (x, y, channel) => {
        const [fromX, fromY] = [Math.round(otherX + eyeX - x - 1), Math.round(otherY + y - eyeY)]
        return pixels[3 * (fromY * cut.widthPx + fromX) + channel] as number
      },
    )
  }
  if (retouch.fringe) pixels = await fringed({ ...cut, pixels }, retouch.fringe)
  if (retouch.hole) pixels = holed({ ...cut, pixels }, retouch.hole)
  if (retouch.enlargedFrom) pixels = await enlarged({ ...cut, pixels }, retouch.enlargedFrom)
  if (retouch.sharpened)
    pixels = await opened({ ...cut, pixels })
      .sharpen({ sigma: 1.2, m1: 2, m2: 2, x1: 0, y2: 100, y3: 100 })
      .raw()
      .toBuffer()
  return retouch.flipped
    ? opened({ ...cut, pixels })
        .flop()
        .raw()
        .toBuffer()
    : pixels
}

async function enlarged(cut: Cut, share: number): Promise<Buffer> {
  const [widthPx, heightPx] = [Math.round(share * cut.widthPx), Math.round(share * cut.heightPx)]
  const pixels = await opened(cut).resize(widthPx, heightPx).raw().toBuffer()
  return opened({ ...cut, pixels, widthPx, heightPx })
    .resize(cut.widthPx, cut.heightPx, { kernel: 'cubic' })
    .raw()
    .toBuffer()
}

function opened({ pixels, widthPx, heightPx }: Cut): Sharp {
  return sharp(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } })
}

/** New values inside an oval, fading out over its outer quarter. */
function within(
  { pixels, widthPx, heightPx }: Cut,
  [middleX, middleY]: readonly [number, number],
  [reachX, reachY]: readonly [number, number],
  valueAt: (x: number, y: number, channel: number) => number,
): Buffer {
  const out = Buffer.from(pixels)
  for (let y = Math.max(0, Math.floor(middleY - reachY)); y < Math.min(heightPx, middleY + reachY); y++) {
    for (let x = Math.max(0, Math.floor(middleX - reachX)); x < Math.min(widthPx, middleX + reachX); x++) {
      const share = Math.min(1, 4 * (1 - Math.hypot((x - middleX) / reachX, (y - middleY) / reachY)))
      if (share <= 0) continue
      for (let channel = 0; channel < 3; channel++) {
        const at = 3 * (y * widthPx + x) + channel
        const before = pixels[at] as number
        out[at] = Math.round(before + share * (valueAt(x, y, channel) - before))
      }
    }
  }
  return out
}

/** White, fading out from the middle of a spot. */
function burntOut(cut: Cut, { x, y, width }: NonNullable<Retouch['burntOut']>): Promise<Buffer> {
  const { widthPx, heightPx } = cut
  const [rx, ry] = [(width / 2) * widthPx, (width / 4) * widthPx]
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}"><defs><radialGradient id="spot"><stop offset="0.5" stop-color="#fff"/><stop offset="1" stop-color="#fff" stop-opacity="0"/></radialGradient></defs><ellipse cx="${x * widthPx}" cy="${y * heightPx}" rx="${rx}" ry="${ry}" fill="url(#spot)"/></svg>`
  return opened(cut)
    .composite([{ input: Buffer.from(svg) }])
    .removeAlpha()
    .raw()
    .toBuffer()
}
