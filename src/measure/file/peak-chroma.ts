import { labPlanes } from '../../color/lab.ts'
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
export function peakChroma({ data, width, height }: RgbPicture): number {
  const [columns, rows] = [Math.min(READ, width), Math.min(READ, height)]
  const read = new Uint8Array(3 * columns * rows)
  for (let row = 0, to = 0; row < rows; row++) {
    const start = Math.floor(((row + 0.5) * height) / rows) * width
    for (let column = 0; column < columns; column++, to += 3) {
      const from = 3 * (start + Math.floor(((column + 0.5) * width) / columns))
      read[to] = data[from] as number
      read[to + 1] = data[from + 1] as number
      read[to + 2] = data[from + 2] as number
    }
  }
  const { a, b } = labPlanes(read, columns * rows)
  const chroma = new Float32Array(a.length)
  // Without `Math.hypot`, which is far slower and guards against numbers that no color has.
  for (let i = 0; i < chroma.length; i++) {
    const along = a[i] as number
    const across = b[i] as number
    chroma[i] = Math.sqrt(along * along + across * across)
  }
  return quantile(chroma, PASSED_OVER)
}
