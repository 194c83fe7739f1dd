import { seededRandom } from '../../examples/drawing/random.ts'
import type { DecodedPicture } from '../../src/measure/file/decoded-picture.ts'
import { blurred } from '../measure/finish/focus/drawn-eyes.ts'

/** The same picture blurred by a Gaussian of so many pixels at an inter-eye distance of 240 px. */
export async function outOfFocus(
  picture: DecodedPicture,
  sigma: number,
  eyeDistancePx: number,
): Promise<DecodedPicture> {
  const { data } = await blurred(picture, (sigma * eyeDistancePx) / 240)
  return { ...picture, data: Buffer.from(data) }
}

/**
 * The same picture with a share of all pixels burned out in red, and as many others without any blue: so clipped is any
 * part of it, whichever part is looked at.
 */
export function clipped(picture: DecodedPicture, share: number, seed: number): DecodedPicture {
  const random = seededRandom(seed)
  const data = Buffer.from(picture.data)
  for (let at = 0; at < data.length; at += 3) {
    const drawn = random.next()
    if (drawn < share) data[at] = 255
    else if (drawn < 2 * share) data[at + 2] = 0
  }
  return { ...picture, data }
}
