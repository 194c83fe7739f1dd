import { chromaPlane } from '../../color/lab.ts'
import { pixelsAt } from '../../imaging/pixels-at.ts'
import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import { quantile } from '../../numbers/quantile.ts'

/** Share of the pixels whose chroma is passed over, from the least colorful. @choice even a sitter who is small in the frame shows more skin than the rest. */
const PASSED_OVER = 0.995

/** Most rows and columns of pixels that are read. @choice 65,536 pixels, of which half a percent are over three hundred. */
const READ = 256

/**
 * The CIE C*ab (D50) that the most colorful 0.5 % of the pixels reach, 0 or more; of a large picture, of pixels spread evenly over it.
 * A black-and-white picture has about 0 in whatever color space it was saved.
 */
export function peakChroma(picture: RgbPicture): number {
  const pixels = spreadOver(picture.width, picture.height)
  return quantile(chromaPlane(pixelsAt(picture, pixels).data, pixels.length), PASSED_OVER)
}

/** Pixels in rows and columns that are spread evenly. */
function spreadOver(width: number, height: number): Int32Array {
  const columns = middlesOf(width)
  const rows = middlesOf(height)
  const pixels = new Int32Array(rows.length * columns.length)
  for (let row = 0, k = 0; row < rows.length; row++) {
    const start = (rows[row] as number) * width
    for (let column = 0; column < columns.length; column++, k++)
      pixels[k] = start + (columns[column] as number)
  }
  return pixels
}

/** The middles of equal parts of a length, px, one for each that is read. */
function middlesOf(length: number): Int32Array {
  const count = Math.min(READ, length)
  return Int32Array.from({ length: count }, (_, k) => Math.floor(((k + 0.5) * length) / count))
}
