import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import { shrunk } from '../../kernels/shrinking.ts'
import type { DecodedPicture } from './decoded-picture.ts'
import type { PictureParts } from './picture-parts.ts'

/** The opacity of a picture as a gray one in the size of a copy, each pixel the nearest one; null when all of it is opaque. */
export function alphaOf(
  { alpha, width, height }: DecodedPicture,
  copy: Pick<RgbPicture, 'width' | 'height'>,
): RgbPicture | null {
  if (!alpha) return null
  const data = new Uint8Array(3 * copy.width * copy.height)
  for (let y = 0, to = 0; y < copy.height; y++) {
    const row = Math.floor(((y + 0.5) * height) / copy.height) * width
    for (let x = 0; x < copy.width; x++, to += 3)
      data.fill(alpha[row + Math.floor(((x + 0.5) * width) / copy.width)] as number, to, to + 3)
  }
  return { data, width: copy.width, height: copy.height }
}

/** A copy at most `edge` px long; a smaller picture is taken as it is. */
export function copyOf({ data, width, height }: RgbPicture, edge: number): RgbPicture {
  const factor = Math.max(width, height) / edge
  return factor <= 1 ? { data, width, height } : shrunk({ data, width, height }, factor)
}

/** A picture that was decoded as a whole. */
export function partsOf(whole: DecodedPicture): PictureParts {
  const { data, width, height, transparentShare } = whole
  return {
    ...{ width, height, transparentShare, whole },
    copy: async (edge) => copyOf(whole, edge),
    // Written out: V8 forgets the class of an object that is spread into, and with it all code that was optimized for it.
    near: async () => ({ data, width, height, left: 0, top: 0 }),
  }
}
