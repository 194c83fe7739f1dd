import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import type { Fit } from './search.ts'

/** Brightest row of a black bar, mean of its brightest channel, codes. @choice JPEG smears the edge of a picture into the black beside it; no source. */
const BLACK = 24

/** How far the two bars may differ, and how near to an edge the picture may end without one, px. @choice rounding and the smeared row, no source. */
const SLACK = 3

/**
 * The part of a preview that the picture takes, when nothing but black bars lie beside it, above and below or left and
 * right: cameras fill a thumbnail up to 160 x 120 px, the size that DCF (JEITA CP-3461) asks for. Else null.
 */
export function withoutBars(preview: RgbPicture, { x, y, width, height }: Fit): RgbPicture | null {
  const left = Math.max(0, Math.round(x * preview.width))
  const top = Math.max(0, Math.round(y * preview.height))
  const right = Math.min(preview.width, Math.round((x + width) * preview.width))
  const bottom = Math.min(preview.height, Math.round((y + height) * preview.height))
  const across = left + (preview.width - right)
  const down = top + (preview.height - bottom)
  if (Math.min(across, down) > SLACK || across + down === 0) return null
  if (Math.abs(left - (preview.width - right)) > SLACK || Math.abs(top - (preview.height - bottom)) > SLACK)
    return null
  const sides =
    across > down
      ? [
          meanOf(preview, 0, 0, left, preview.height),
          meanOf(preview, right, 0, preview.width, preview.height),
        ]
      : [meanOf(preview, 0, 0, preview.width, top), meanOf(preview, 0, bottom, preview.width, preview.height)]
  return sides.every((mean) => mean <= BLACK) ? cropped(preview, left, top, right, bottom) : null
}

function meanOf(
  { data, width }: RgbPicture,
  left: number,
  top: number,
  right: number,
  bottom: number,
): number {
  let sum = 0
  for (let y = top; y < bottom; y++) {
    for (let i = 3 * (y * width + left); i < 3 * (y * width + right); i += 3) {
      sum += Math.max(data[i] as number, data[i + 1] as number, data[i + 2] as number)
    }
  }
  return sum / Math.max(1, (right - left) * (bottom - top))
}

function cropped(picture: RgbPicture, left: number, top: number, right: number, bottom: number): RgbPicture {
  const width = right - left
  const data = new Uint8Array(3 * width * (bottom - top))
  for (let y = top; y < bottom; y++) {
    const from = 3 * (y * picture.width + left)
    data.set(picture.data.subarray(from, from + 3 * width), 3 * width * (y - top))
  }
  return { data, width, height: bottom - top }
}
