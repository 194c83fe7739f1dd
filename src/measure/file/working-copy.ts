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
export function copyOf(picture: RgbPicture, edge: number): RgbPicture {
  return copiesOf(picture, [edge]).get(edge) as RgbPicture
}

/** The same by several edges. */
function copiesOf({ data, width, height }: RgbPicture, edges: readonly number[]): Map<number, RgbPicture> {
  const picture = { data, width, height }
  const longest = Math.max(width, height)
  const shorter = edges.filter((edge) => edge < longest)
  const copies = shrunk(
    picture,
    shorter.map((edge) => longest / edge),
  )
  return new Map(edges.map((edge) => [edge, copies[shorter.indexOf(edge)] ?? picture]))
}

/** A picture that was decoded as a whole. @param edges of the copies that will be asked for: all of them are made with the first */
export function partsOf(whole: DecodedPicture, edges: readonly number[]): PictureParts {
  const { data, width, height, transparentShare } = whole
  let copies: Map<number, RgbPicture> | null = null
  return {
    ...{ width, height, transparentShare, whole },
    copy: async (edge) => {
      copies ??= copiesOf(whole, edges)
      return copies.get(edge) ?? copyOf(whole, edge)
    },
    // Written out: V8 forgets the class of an object that is spread into, and with it all code that was optimized for it.
    near: async () => ({ data, width, height, left: 0, top: 0 }),
  }
}
