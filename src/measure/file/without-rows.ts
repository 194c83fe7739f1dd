import type { RgbPicture } from '../../imaging/rgb-picture.ts'

/** Orientations that show the stored bottom edge elsewhere, by where they do. @source CIPA DC-008 (Exif), 4.6.4 A. */
const SHOWN_AT = { top: [3, 4], left: [6, 7], right: [5, 8] }

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
  if (SHOWN_AT.top.includes(orientation))
    return { ...picture, data: data.subarray(rows * row), height: height - rows }
  if (!SHOWN_AT.left.includes(orientation) && !SHOWN_AT.right.includes(orientation))
    return { ...picture, data: data.subarray(0, (height - rows) * row), height: height - rows }
  const kept = 3 * (width - rows)
  const from = SHOWN_AT.left.includes(orientation) ? row - kept : 0
  const cut = Buffer.allocUnsafe(kept * height)
  for (let y = 0; y < height; y++) data.copy(cut, y * kept, y * row + from, y * row + from + kept)
  return { ...picture, data: cut, width: width - rows }
}
