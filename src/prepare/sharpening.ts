import { placeOn, turnedBy } from '../framing/turned.ts'
import { measureFocus } from '../measure/finish/focus/eye-focus.ts'
import type { Finished } from './pixels/resample.ts'
import { detailOf, rgbOf, sharpened } from './pixels/sharpened.ts'
import type { PlannedFile } from './planning/plan.ts'

/** Standard deviation of the blur of the unsharp mask, px of the file. @choice as fine as pixels show, so that halos stay thin; no source. */
const SIGMA_PX = 0.7

/**
 * Amounts that are tried, the largest first: so many times the detail is added. They are not searched in halves, since halos are read at whole
 * px beside the edges, which makes them jump as edges become sharper.
 * @choice common practice is 0.3 to 1.5, no source.
 */
const AMOUNTS = [2, 1.6, 1.3, 1, 0.8, 0.6, 0.45, 0.3, 0.2, 0.1]

/** By so much less than the limit the halos are aimed at, %: encoding changes them a little. @choice no source. */
const ROOM = 1

/** How a file was sharpened. */
export interface Sharpening {
  /** How many times the detail was added; 0 where more than the limit was there before, or nobody can tell. */
  readonly amount: number
  /** Halos at the eyes before encoding, as `sharpening-halo` measures them; null where they can't be told. */
  readonly haloPct: number | null
}

/**
 * A picture sharpened as far as the halos at the eyes stay within a limit.
 * @param most largest halo in percent of the height of the edges, as `sharpening-halo` has it
 */
export function sharpenedWithin(
  picture: Finished,
  planned: PlannedFile,
  most: number,
): { readonly picture: Finished; readonly sharpening: Sharpening } {
  const plain = rgbOf(picture)
  const haloOf = haloAt(planned)
  const before = haloOf?.(plain) ?? null
  if (!haloOf || before === null || before > most - ROOM)
    return { picture, sharpening: { amount: 0, haloPct: before } }
  const detail = detailOf(plain, SIGMA_PX)
  for (const amount of AMOUNTS) {
    const tried = sharpened(picture, detail, amount)
    const haloPct = haloOf(rgbOf(tried))
    if (haloPct !== null && haloPct <= most - ROOM) return { picture: tried, sharpening: { amount, haloPct } }
  }
  return { picture, sharpening: { amount: 0, haloPct: before } }
}

/** How the halos at the eyes of a file are measured; null without eyes. */
function haloAt({ master, crop, size, turnDeg }: PlannedFile) {
  const { face, widthPx, heightPx } = master.measured
  if (!face?.leftEye || !face.rightEye || !widthPx || !heightPx) return null
  const turned = turnedBy(turnDeg, { widthPx, heightPx })
  const irisOf = ({ x, y }: { readonly x: number; readonly y: number }): readonly [number, number] => {
    const place = placeOn(turned, { x: x * widthPx, y: y * heightPx })
    return [
      ((place.x - crop.leftPx) * size.widthPx) / crop.widthPx,
      ((place.y - crop.topPx) * size.heightPx) / crop.heightPx,
    ]
  }
  const irises = [irisOf(face.leftEye), irisOf(face.rightEye)] as const
  return (of: ReturnType<typeof rgbOf>) => measureFocus(of, irises, [], face).haloPct
}
