import type { Rectangle } from '../../imaging/picture-part.ts'
import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import { decoder } from './decoder.ts'
import { isOnItsSide } from './exif/orientation.ts'

/** What a viewer does by the orientation: mirror left to right, then rotate clockwise. @source CIPA DC-008 (Exif), 4.6.4 A. */
const DISPLAYED: Readonly<Record<number, { flop?: true; degrees?: number }>> = {
  2: { flop: true },
  3: { degrees: 180 },
  4: { flop: true, degrees: 180 },
  5: { flop: true, degrees: 270 },
  6: { degrees: 90 },
  7: { flop: true, degrees: 90 },
  8: { degrees: 270 },
}

/** A stored picture as its orientation has it displayed. @param orientation 1 to 8; 1 where there is no tag */
export async function displayed(picture: RgbPicture, orientation: number): Promise<RgbPicture> {
  const { flop = false, degrees = 0 } = DISPLAYED[orientation] ?? {}
  if (!flop && degrees === 0) return picture
  const turned = flop ? await read(picture, (stored) => stored.flop()) : picture
  return degrees === 0 ? turned : read(turned, (stored) => stored.rotate(degrees))
}

type Stored = ReturnType<typeof decoder>

async function read(
  { data, width, height }: RgbPicture,
  turn: (stored: Stored) => Stored,
): Promise<RgbPicture> {
  const stored = decoder(data, { raw: { width, height, channels: 3 } })
  const { data: turned, info } = await turn(stored).raw().toBuffer({ resolveWithObject: true })
  return { data: turned, width: info.width, height: info.height }
}

/** Orientations that display the stored right edge at the left or at the top. @source CIPA DC-008 (Exif), 4.6.4 A. */
const FROM_RIGHT = [2, 3, 7, 8]
/** Orientations that display the stored lower edge there. @source CIPA DC-008 (Exif), 4.6.4 A. */
const FROM_BELOW = [3, 4, 6, 7]

/**
 * Where a rectangle of a displayed picture lies in the stored one.
 * @param width and height of the picture as displayed, px
 */
export function storedPlace(
  { left, top, ...size }: Rectangle,
  orientation: number,
  { width, height }: Pick<RgbPicture, 'width' | 'height'>,
): Rectangle {
  const [right, below] = [width - left - size.width, height - top - size.height]
  const isAside = isOnItsSide(orientation)
  const [across, acrossBack] = isAside ? [top, below] : [left, right]
  const [down, downBack] = isAside ? [left, right] : [top, below]
  return {
    left: FROM_RIGHT.includes(orientation) ? acrossBack : across,
    top: FROM_BELOW.includes(orientation) ? downBack : down,
    width: isAside ? size.height : size.width,
    height: isAside ? size.width : size.height,
  }
}
