import type { RgbPicture } from '../../imaging/rgb-picture.ts'

// Where the stored bottom edge is shown. CIPA DC-008, 4.6.4 A (Orientation).
const AT_TOP = [3, 4]
const AT_LEFT = [6, 7]
const AT_RIGHT = [5, 8]

/**
 * The picture without the last rows that are stored, which an orientation tag may show at another edge.
 * @param orientation 1 to 8; 1 where there is no tag
 */
export function withoutRows<Picture extends RgbPicture & { readonly data: Buffer }>(
  picture: Picture,
  rows: number,
  orientation: number,
): Picture {
  const { data, width, height } = picture
  const row = 3 * width
  if (AT_TOP.includes(orientation))
    return { ...picture, data: data.subarray(rows * row), height: height - rows }
  if (!AT_LEFT.includes(orientation) && !AT_RIGHT.includes(orientation))
    return { ...picture, data: data.subarray(0, (height - rows) * row), height: height - rows }
  const kept = 3 * (width - rows)
  const from = AT_LEFT.includes(orientation) ? row - kept : 0
  const cut = Buffer.allocUnsafe(kept * height)
  for (let y = 0; y < height; y++) data.copy(cut, y * kept, y * row + from, y * row + from + kept)
  return { ...picture, data: cut, width: width - rows }
}
